"""What all forms of documents ask: language, paper, format, and of some a period."""

from __future__ import annotations

import datetime
from typing import Any, ClassVar

from babel import Locale
from django import forms
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.documents.labels import LANGUAGES
from catalogue.documents.model import Paper
from catalogue.documents.registry import FORMATS, KINDS
from catalogue.making import Wish
from catalogue.models import Composer, Work
from catalogue.web.forms.fields import DateField

PAPERS = ((Paper.A4.value, "A4"), (Paper.LETTER.value, _("US Letter")))
YEARS_IN_CV = 6


def language_names() -> list[tuple[str, str]]:
    """Return the languages in which documents are printed, each in its own words."""
    return [(tag, name_of_language(tag)) for tag in LANGUAGES]


def name_of_language(tag: str) -> str:
    name = Locale.parse(tag, sep="-").get_display_name() or tag
    return name[0].upper() + name[1:]


def formats_of(kind: str) -> list[tuple[str, str]]:
    return [(word, FORMATS[word].title) for word in KINDS[kind].formats]


class DocumentForm(forms.Form):
    """The form of one kind of document; ``usual`` is what is answered where nothing is asked."""

    word: ClassVar[str] = ""
    title: ClassVar[str | Promise] = ""
    about: ClassVar[str | Promise] = ""
    field_order: tuple[str, ...] = ()

    language = forms.ChoiceField(label=_("Language"), choices=language_names)
    paper = forms.ChoiceField(label=_("Paper"), choices=PAPERS)
    format = forms.ChoiceField(label=_("Format"))

    def __init__(self, asked: Any, *, composer: Composer, today: datetime.date) -> None:
        self.composer, self.today = composer, today
        super().__init__({**self.usual(), **asked.dict()})
        self.fields["format"] = forms.ChoiceField(label=self.fields["format"].label, choices=formats_of(self.any_kind))

    any_kind: ClassVar[str] = ""

    @property
    def is_anonymous(self) -> bool:
        """Whether not even the name of the file may tell whose it is."""
        return False

    @property
    def kind(self) -> str:
        """The registry's word for what is asked."""
        return self.any_kind

    def usual(self) -> dict[str, str]:
        language = self.composer.language if self.composer.language in LANGUAGES else LANGUAGES[0]
        return {"language": language, "paper": Paper.A4.value, "format": "pdf"}

    def wish(self) -> Wish:
        """Return what is wanted; the form is valid."""
        return Wish(
            kind=self.kind,
            language=self.cleaned_data["language"],
            paper=Paper(self.cleaned_data["paper"]),
            today=self.today,
        )

    @property
    def work(self) -> Work | None:
        """The work that a document is of, where it is of one and one is chosen."""
        chosen: Work | None = self.cleaned_data.get("work")
        return chosen


class PeriodForm(DocumentForm):
    """A document of what falls between two days."""

    first = DateField(label=_("From"), help_text=_("A year, a month or a day."))
    last = DateField(label=_("To"), help_text=_("Leave empty for today and what is to come."))
    field_order: tuple[str, ...] = ("first", "last")

    def usual(self) -> dict[str, str]:
        return {**super().usual(), "first": str(self.today.year - YEARS_IN_CV), "last": ""}

    def clean(self) -> dict[str, Any]:
        typed = self.cleaned_data
        first, last = typed.get("first"), typed.get("last")
        if first and last and first.first > last.last:
            self.add_error("last", _("This lies before the beginning; change one of the two."))
        return typed

    def wish(self) -> Wish:
        first, last = self.cleaned_data["first"], self.cleaned_data["last"]
        plain = super().wish()
        return Wish(
            plain.kind,
            plain.language,
            plain.paper,
            plain.today,
            first=first.first if first else None,
            last=last.last if last else None,
        )


def number_of(text: str) -> int | None:
    """Return the key that an address names, None where it is none."""
    return int(text) if text.isdecimal() and len(text) < 19 else None
