"""What a document can be asked: which works, in which order, between which days, in which language, on which paper.

Each kind of document has its form; a form is filled with the usual answers where nothing is asked, so that it can
always show something.
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from catalogue.documents.contents.works_list import Telling
from catalogue.documents.model import Paper
from catalogue.instrumentation import Instrumentation, InstrumentationError, read
from catalogue.making import Wish
from catalogue.models import Composer, Cue, Performance, ProgrammedWork, Work
from catalogue.timing import PartialDate, write_date
from catalogue.web.forms.document_base import DocumentForm, PeriodForm, number_of
from catalogue.web.forms.fields import DateField
from catalogue.web.forms.hire_papers import HIRE_PAPERS
from catalogue.web.forms.work_field import WorkField
from catalogue.web.programmes import name_of
from catalogue.web.wording import page_language

SCORE_PAPERS = (
    (Paper.A3.value, "A3"),
    (Paper.B4.value, _("B4 (250 × 353 mm)")),
    (Paper.A4.value, "A4"),
    (Paper.TABLOID.value, _("Tabloid (11 × 17 in)")),
    (Paper.TEN_BY_THIRTEEN.value, _("10 × 13 in")),
    (Paper.NINE_BY_TWELVE.value, _("9 × 12 in")),
    (Paper.LETTER.value, _("US Letter")),
)
OFFERED = 60  # performances to choose from, the latest ones


class WorksListForm(DocumentForm):
    word, title = "works-list", _("Works list")
    about = _("Every work on public lists, with its players, its duration and its first performance.")
    any_kind = "works-list-by-category"

    order = forms.ChoiceField(
        label=_("Order"),
        choices=(
            ("category", _("By category, in full")),
            ("year", _("By year, in short")),
            ("forces", _("By the number of players")),
            ("duration", _("By duration")),
        ),
    )
    length = forms.ChoiceField(
        label=_("Entries"),
        choices=(("full", _("Full")), ("medium", _("With forces and first performance")), ("short", _("Short"))),
    )
    available = forms.CharField(
        label=_("Only what these players can play"),
        required=False,
        max_length=400,
        help_text=_("Such as fl, cl, vn, vc, pf."),
    )
    indexed = forms.BooleanField(label=_("With indexes of instruments and authors"), required=False)
    field_order: tuple[str, ...] = ("order", "length", "available", "indexed")

    def usual(self) -> dict[str, str]:
        return {**super().usual(), "order": "category", "length": "full"}

    def clean_available(self) -> Instrumentation | None:
        typed = self.cleaned_data["available"]
        if not typed:
            return None
        try:
            return read(typed)
        except InstrumentationError as mistake:
            raise ValidationError(mistake.reason) from mistake

    def wish(self) -> Wish:
        asked = self.cleaned_data
        telling = Telling(asked["length"], indexed=asked["indexed"], available=asked["available"])
        return replace(super().wish(), telling=telling)

    @property
    def kind(self) -> str:
        return f"works-list-by-{self.cleaned_data['order']}"


class CvForm(PeriodForm):
    word, title = "cv-section", _("CV section")
    about = _("Works, commissions, performances and recordings of some years, as an application asks for them.")
    any_kind = "cv-section"

    pages = forms.IntegerField(
        label=_("Pages"),
        min_value=1,
        max_value=50,
        required=False,
        help_text=_("At most; what does not fit is left out."),
    )
    field_order: tuple[str, ...] = ("first", "last", "pages")

    def wish(self) -> Wish:
        return replace(super().wish(), pages=self.cleaned_data["pages"])


def work_to_choose(composer: Composer, wanted: Q | None = None, *, empty: Any = "") -> WorkField:
    """Return the field in which a work of the catalogue is picked, of those that are wanted."""
    work = WorkField(label=_("Work"), required=False, empty_label=empty or _("Choose a work"))
    work.offer(Work.objects.filter(*([wanted] if wanted else []), composer=composer), composer)
    return work


class PartsForm(DocumentForm):
    word, title = "parts-checklist", _("Parts checklist")
    about = _("The parts of a work with their numbers of copies, to tick as they leave and come back.")
    any_kind = "parts-checklist"

    field_order: tuple[str, ...] = ("work", "performance")

    def __init__(self, asked: Any, *, composer: Composer, today: datetime.date) -> None:
        super().__init__(asked, composer=composer, today=today)
        work = work_to_choose(composer)
        performance = forms.ModelChoiceField(
            Performance.objects.filter(composer=composer),
            label=_("For the performance"),
            help_text=_("It says how many strings play."),
            required=False,
        )
        self.fields.update({"work": work, "performance": performance})
        performance.choices = [("", _("none in particular")), *self.offered(work.key_of(self.data.get("work", "")))]
        self.order_fields(self.field_order)

    def offered(self, work: int | None) -> Iterator[tuple[int, str]]:
        """Give the performances of the work that is asked for, or those to come, and the one that is asked for."""
        performance = number_of(self.data.get("performance", ""))
        programmed = ProgrammedWork.objects.filter(work=work).values("performance")
        wanted = Q(pk__in=programmed) if work else Q(last_day__gte=self.today)
        ours = Performance.objects.filter(composer=self.composer).filter(wanted | Q(pk=performance))
        for one in ours.with_everything_printed().latest_first()[:OFFERED]:
            day = write_date(one.date, page_language()) if isinstance(one.date, PartialDate) else ""
            yield one.pk, ", ".join(part for part in (name_of(one), day) if part)

    def clean(self) -> dict[str, Any]:
        if not self.cleaned_data.get("work") and not self.cleaned_data.get("performance") and not self.errors:
            raise ValidationError(_("Choose the work whose parts are to be listed."), code="unchosen")
        return self.cleaned_data

    def wish(self) -> Wish:
        plain, work, performance = super().wish(), self.work, self.cleaned_data["performance"]
        return Wish(
            plain.kind,
            plain.language,
            plain.paper,
            plain.today,
            works=(work.pk,) if work else (),
            performance=performance.pk if performance else None,
        )


class CueSheetForm(DocumentForm):
    word, title = "cue-sheet", _("Cue sheet")
    about = _("What happens at which bar and time, from which file, and who acts.")
    any_kind = "cue-sheet"

    size = forms.ChoiceField(
        label=_("Size"), choices=(("full", _("A whole sheet")), ("pocket", _("For the pocket, to lie on a stand")))
    )
    field_order: tuple[str, ...] = ("work", "size")

    def __init__(self, asked: Any, *, composer: Composer, today: datetime.date) -> None:
        super().__init__(asked, composer=composer, today=today)
        with_cues = Q(pk__in=Cue.objects.filter(work__composer=composer).values("work"))
        wanted = with_cues | Q(pk=number_of(self.data.get("work", "")))
        self.fields["work"] = work_to_choose(composer, wanted)
        self.order_fields(self.field_order)

    def usual(self) -> dict[str, str]:
        return {**super().usual(), "size": "full"}

    @property
    def kind(self) -> str:
        return "cue-sheet-pocket" if self.cleaned_data.get("size") == "pocket" else "cue-sheet"

    def clean(self) -> dict[str, Any]:
        if not self.cleaned_data.get("work") and not self.errors:
            raise ValidationError(_("Choose the work whose cues are to be listed."), code="unchosen")
        return self.cleaned_data

    def wish(self) -> Wish:
        plain, work = super().wish(), self.work
        return Wish(plain.kind, plain.language, plain.paper, plain.today, works=(work.pk,) if work else ())


class FrontMatterForm(DocumentForm):
    word, title = "front-matter", _("Front matter of a score")
    about = _("All that stands before the music: cover, title page, instruments, needs, notation, notes, words.")
    any_kind = "front-matter"

    paper = forms.ChoiceField(label=_("Paper"), choices=SCORE_PAPERS)
    without_cover = forms.BooleanField(label=_("Without a cover"), required=False)
    anonymous = forms.BooleanField(
        label=_("For an anonymous call"),
        required=False,
        help_text=_("Leaves out who wrote, published, asked for and played it; your texts stand as they are."),
    )
    field_order: tuple[str, ...] = ("work", "paper", "without_cover", "anonymous")

    def __init__(self, asked: Any, *, composer: Composer, today: datetime.date) -> None:
        super().__init__(asked, composer=composer, today=today)
        self.fields["work"] = work_to_choose(composer)
        self.order_fields(self.field_order)

    def usual(self) -> dict[str, str]:
        return {**super().usual(), "paper": Paper.A3.value}

    def clean(self) -> dict[str, Any]:
        if not self.cleaned_data.get("work") and not self.errors:
            raise ValidationError(_("Choose the work whose score it stands before."), code="unchosen")
        return self.cleaned_data

    def wish(self) -> Wish:
        works = (self.work.pk,) if self.work else ()
        asked = self.cleaned_data
        return replace(
            super().wish(), works=works, has_cover=not asked["without_cover"], is_anonymous=asked["anonymous"]
        )

    @property
    def is_anonymous(self) -> bool:
        return bool(self.cleaned_data.get("anonymous"))


class RiderForm(PartsForm):
    word, title = "rider", _("Technical rider")
    about = _("What a presenter is asked for: equipment, stage plan, channels, people, time, and the cautions.")
    any_kind = "rider"

    def __init__(self, asked: Any, *, composer: Composer, today: datetime.date) -> None:
        super().__init__(asked, composer=composer, today=today)
        self.fields["performance"].help_text = _("It says in which hall, and whose list of equipment is compared.")

    def clean(self) -> dict[str, Any]:
        if not self.cleaned_data.get("work") and not self.cleaned_data.get("performance") and not self.errors:
            raise ValidationError(_("Choose the work that the rider is of."), code="unchosen")
        return self.cleaned_data


class HistoryForm(PeriodForm):
    word, title = "performance-history", _("Performance history")
    about = _("Every public performance, of one work or of all: who played, where, and what it was the first of.")
    any_kind = "performance-history"

    field_order: tuple[str, ...] = ("work", "first", "last")

    def __init__(self, asked: Any, *, composer: Composer, today: datetime.date) -> None:
        super().__init__(asked, composer=composer, today=today)
        self.fields["work"] = work_to_choose(composer, empty=_("all of them"))
        self.order_fields(self.field_order)

    def usual(self) -> dict[str, str]:
        return {**super().usual(), "first": ""}

    def wish(self) -> Wish:
        return replace(super().wish(), works=(self.work.pk,) if self.work else ())


class PressForm(DocumentForm):
    word, title = "press-sheet", _("Press sheet")
    about = _("The life in short, what is to come, the latest premieres, some works, and whom to ask.")
    any_kind = "press-sheet"


class EntryForm(PartsForm):
    word, title = "programme-entry", _("Programme entry")
    about = _("One work for a programme book: title, forces, note, first performance, credits, life, sung words.")
    any_kind = "programme-entry"

    words = forms.IntegerField(
        label=_("Words of the note"), min_value=1, required=False, help_text=_("At most; shortened from the end.")
    )
    field_order: tuple[str, ...] = ("work", "performance", "words")

    def wish(self) -> Wish:
        return replace(super().wish(), words=self.cleaned_data["words"])


class ReturnForm(PeriodForm):
    word, title = "performance-return", _("Performance return")
    about = _("What a rights society asks about performances that took place, to be signed; as a table too.")
    any_kind = "performance-return"

    society = forms.CharField(
        label=_("Society"),
        required=False,
        max_length=120,
        help_text=_("Leave empty to take the only one whose deadlines are kept."),
    )
    member = forms.CharField(label=_("Member number"), required=False, max_length=40)
    due = DateField(
        label=_("To be there by"),
        help_text=_("Leave empty to reckon it from the society’s deadlines, where they are kept."),
    )
    field_order: tuple[str, ...] = ("first", "last", "society", "member", "due")

    def usual(self) -> dict[str, str]:
        last_year = str(self.today.year - 1)
        return {**super().usual(), "first": last_year, "last": last_year}

    def wish(self) -> Wish:
        typed = self.cleaned_data
        due = typed["due"].last if typed["due"] else None
        return replace(super().wish(), society=typed["society"], member_number=typed["member"], due=due)


FORMS: dict[str, type[DocumentForm]] = {
    form.word: form
    for form in (
        WorksListForm, CvForm, EntryForm, HistoryForm, PressForm, PartsForm, FrontMatterForm, CueSheetForm,
        RiderForm, ReturnForm, *HIRE_PAPERS,
    )
}  # fmt: skip

PAPERS_OF_MATERIAL = frozenset({PartsForm.word, *(form.word for form in HIRE_PAPERS)})
"""The papers that librarians make."""


def documents_of(record: str) -> tuple[type[DocumentForm], ...]:
    """Return the documents that are made of one record: a ``work``, or a ``performance``."""
    return tuple(form for form in FORMS.values() if record in (form.field_order or ()))
