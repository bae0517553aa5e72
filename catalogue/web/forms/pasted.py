"""The forms of a pasted list: the text or a file of it, and a work that was read from it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from django import forms
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from catalogue.exchange.cell_words import choose
from catalogue.exchange.drafts import Draft, Origin, origins_of
from catalogue.exchange.pasted import MOST_CHARACTERS
from catalogue.exchange.pasted_entries import COLUMNS
from catalogue.exchange.tables import TableError
from catalogue.exchange.word_text import text_of_file
from catalogue.models.conditions import choices_of
from catalogue.models.fields import LINE, LONG_LINE, TEXT, refuse_unprintable
from catalogue.terms import Category
from catalogue.timing import PartialDate
from catalogue.web.forms.fields import read_typed_date
from catalogue.web.uploads import is_too_large

PER_PAGE = 20


class PasteForm(forms.Form):
    """A text, or a file with one."""

    text = forms.CharField(
        label=_("Your list"),
        help_text=_(
            "One work a line or a paragraph, in whatever order you write them; categories or years may head them."
        ),
        required=False,
        max_length=MOST_CHARACTERS,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 12, "dir": "auto", "spellcheck": "false"}),
    )
    file = forms.FileField(
        label=_("Or a file"),
        help_text=_("A text of a word processor (DOCX) or plain text, up to 10 MB."),
        required=False,
        max_length=255,
        allow_empty_file=True,
        widget=forms.FileInput(attrs={"accept": ".docx,.txt,.md"}),
    )

    def __init__(self, *args: Any, request: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.is_too_large = is_too_large(request, "file")

    def clean(self) -> dict[str, Any]:
        cleaned = self.cleaned_data
        sent = cleaned.get("file")
        if self.is_too_large:
            self.add_error("file", _("This file is larger than 10 MB."))
        elif sent:
            try:
                cleaned["text"] = text_of_file(sent.read())
            except TableError as fault:
                self.add_error("file", fault.reason)
        elif not (cleaned.get("text") or "").strip() and not self.errors:
            self.add_error("text", _("Paste your list here, or choose a file."))
        return cleaned


def text(label: Any, length: int = LONG_LINE, **attrs: Any) -> forms.CharField:
    return forms.CharField(
        label=label,
        required=False,
        max_length=length,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"dir": "auto", **attrs}),
    )


def lines(label: Any) -> forms.CharField:
    return forms.CharField(
        label=label,
        required=False,
        max_length=TEXT,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 2, "dir": "auto"}),
    )


class DraftForm(forms.Form):
    """A work as it was read from its words; what is typed is read when it is stored."""

    title = text(_("Title"))
    subtitle = text(_("Subtitle"))
    original_title = text(_("Original title"))
    translated_title = text(_("Translation"))
    catalogue_number = text(_("Catalogue number"), 50)
    year = text(_("Completed"), 64)
    revised = text(_("Revised"), 64)
    category = forms.ChoiceField(label=_("Category"), required=False)
    instrumentation = lines(_("Instrumentation"))
    duration = text(_("Duration"), LINE)
    text_author = text(_("Text by"))
    text_language = text(_("Language of the text"), 35)
    commissioned_by = text(_("Commissioned by"))
    dedication = text(_("Dedicated to"))
    publisher = text(_("Publisher"), LINE)
    iswc = text("ISWC", 100)
    ismn = text("ISMN", 100)
    movements = lines(_("Movements"))
    notes = lines(_("Notes for yourself"))
    left_out = forms.BooleanField(label=_("Leave this one out"), required=False)

    def __init__(self, *args: Any, draft: Draft, **options: Any) -> None:
        super().__init__(*args, **options)
        self.draft = draft
        category = draft.work.get("category", "")
        known = choose("category", category).word or category
        others = [] if not category or known in set(Category) else [(category, category)]
        self.fields["category"].choices = [("", _("not known")), *choices_of(Category), *others]  # type: ignore[attr-defined]
        self.initial = {**draft.work, "category": known, "left_out": draft.left_out}
        self.origins = origins_of(draft)

    def clean(self) -> dict[str, Any]:
        cleaned = self.cleaned_data
        if not cleaned.get("left_out") and "title" in cleaned and not cleaned["title"]:
            self.add_error("title", _("A work needs a title; leave it out if this is none."))
        for name in ("year", "revised"):
            if cleaned.get(name) and not cleaned.get("left_out"):
                self._check_date(name, cleaned[name])
        return cleaned

    def _check_date(self, name: str, typed: str) -> PartialDate | None:
        try:
            return read_typed_date(typed)
        except ValueError as mistake:
            self.add_error(name, getattr(mistake, "reason", str(mistake)))
            return None

    def corrected(self) -> Draft:
        work = {name: self.cleaned_data[name] for name in COLUMNS if self.cleaned_data.get(name)}
        if work.get("category") and work["category"] == self.initial["category"]:
            work["category"] = self.draft.work["category"]
        return Draft(self.draft.words, self.draft.headings, work, self.cleaned_data["left_out"])

    # ---- how it is laid out

    def read_fields(self) -> Iterator[tuple[BoundField, Origin | None]]:
        """Give the fields that hold something or are mistaken, each with the words it came from."""
        return ((self[name], self.origins.get(name)) for name in COLUMNS if self._is_shown(name))

    def other_fields(self) -> Iterator[BoundField]:
        return (self[name] for name in COLUMNS if not self._is_shown(name))

    def _is_shown(self, name: str) -> bool:
        return name == "title" or bool(self[name].value() or self[name].errors)


def forms_of(drafts: Sequence[Draft], first: int, typed: Any = None) -> list[DraftForm]:
    """Return the forms of a page of drafts, the first of which has this place in the list."""
    shown = drafts[first : first + PER_PAGE]
    return [DraftForm(typed, draft=draft, prefix=str(first + place)) for place, draft in enumerate(shown)]
