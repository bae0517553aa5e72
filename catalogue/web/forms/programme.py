"""What stood on a programme, a work in each row: picked by its name, with how much of it was played."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext_lazy as _

from catalogue.models import Performance, ProgrammedWork
from catalogue.models.conditions import choices_of
from catalogue.models.fields import LONG_LINE, refuse_unprintable
from catalogue.terms import Extent
from catalogue.timing import Duration, read_duration
from catalogue.web.forms import rows
from catalogue.web.forms.fields import ReadField
from catalogue.web.forms.work_field import suggesting
from catalogue.web.work_names import UnknownWork, WorkNames

PREFIX, MOST = "programme", 100
BESIDE = ("extent", "part", "billing", "claim_override", "claim_reason", "duration", "note")


class ProgrammeForm(forms.Form):
    """One work; a row without a name is none. ``row`` says which stored row it changes."""

    row = forms.IntegerField(widget=forms.HiddenInput, required=False)
    work = forms.CharField(
        label=_("Work"),
        required=False,
        max_length=LONG_LINE,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"list": "works", "dir": "auto"}),
    )
    extent = forms.ChoiceField(label=_("How much was played"), choices=choices_of(Extent), required=False)
    part = forms.CharField(label=_("Which part"), required=False, max_length=LONG_LINE, validators=[refuse_unprintable])
    billing = forms.CharField(
        label=_("Billed as"),
        help_text=_("As it was printed: UK premiere."),
        required=False,
        max_length=LONG_LINE,
        validators=[refuse_unprintable],
    )
    claim_override = forms.CharField(
        label=_("To be called"),
        help_text=_("Only to overrule what the records say: world premiere, no first performance."),
        required=False,
        max_length=LONG_LINE,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"list": "claims"}),
    )
    claim_reason = forms.CharField(
        label=_("Because"),
        help_text=_("Why it is called so; the page shows it."),
        required=False,
        max_length=LONG_LINE,
        validators=[refuse_unprintable],
    )
    duration = ReadField(
        read=read_duration, label=_("How long it lasted"), widget=forms.TextInput(attrs={"class": "short"})
    )
    note = forms.CharField(label=_("Remark"), required=False, max_length=LONG_LINE, validators=[refuse_unprintable])

    def __init__(self, *args: Any, names: WorkNames, **options: Any) -> None:
        super().__init__(*args, **options)
        self.names = names
        self.label_suffix = ""
        if names.labels and not names.offered:
            self.fields["work"].widget.attrs |= suggesting(next(iter(names.works.values())).composer, "works")

    def clean_work(self) -> Any:
        text: str = self.cleaned_data["work"]
        try:
            return self.names.find(text) if text else None
        except UnknownWork as mistake:
            raise ValidationError(mistake.reason) from mistake

    def clean_duration(self) -> Duration | None:
        duration: Duration | None = self.cleaned_data["duration"]
        if duration is not None and not duration.seconds:
            raise ValidationError(_("A duration is longer than nothing; leave it empty where it is not known."))
        return duration

    def clean(self) -> dict[str, Any]:
        typed = self.cleaned_data
        told = any(typed.get(name) for name in BESIDE if name != "extent")
        if told and "work" in typed and typed["work"] is None:
            self.add_error("work", _("Name the work that was played."))
        if typed.get("claim_override") and "claim_reason" in typed and not typed["claim_reason"]:
            self.add_error("claim_reason", _("Say why it is to be called that."))
        if typed.get("claim_reason") and "claim_override" in typed and not typed["claim_override"]:
            self.add_error("claim_override", _("Say what it is to be called, or leave the reason empty too."))
        return typed

    @property
    def more_is_filled(self) -> bool:
        """Whether the row says more than the work, or something in it is mistaken."""
        usual = {None, "", Extent.COMPLETE.value}
        return any(self[name].errors or self[name].value() not in usual for name in BESIDE)


class Programme(forms.BaseFormSet):
    """The works of a programme in their order, and an empty row more."""

    def rows(self, stored: list[ProgrammedWork]) -> list[ProgrammedWork]:
        """Return the programme that was typed; rows that stay keep their history, those of deleted works stand last."""
        by_key = {row.pk: row for row in stored}
        typed = [form.cleaned_data for form in self.forms if form.cleaned_data.get("work")]
        told = [programmed(by_key.pop(one.get("row") or 0, ProgrammedWork()), one) for one in typed]
        return [*told, *(row for row in by_key.values() if row.work.deleted_at is not None)]

    @property
    def is_empty(self) -> bool:
        return not any(form.cleaned_data.get("work") for form in self.forms)

    def in_words(self) -> str:
        """Return the programme as one reads it, a work a line."""
        return rows.in_words(self, ("work", *BESIDE), first="work")


def programmed(row: ProgrammedWork, typed: dict[str, Any]) -> ProgrammedWork:
    row.work, row.extent = typed["work"], typed["extent"] or Extent.COMPLETE.value
    row.part, row.billing, row.note = typed["part"], typed["billing"], typed["note"]
    row.duration = typed["duration"]
    row.claim_override, row.claim_reason = typed["claim_override"], typed["claim_reason"]
    return row


def programme_rows(
    performance: Performance, names: WorkNames, typed: Any = None, *, first: Iterable[str] = ()
) -> Programme:
    """Return the rows of a programme; ``first`` are the works that a new performance begins with."""
    living = [row for row in stored_programme(performance) if row.work_id in names.labels]
    shown = [initial_of(row, names) for row in living] or [{"work": name} for name in first]
    return cast(Programme, ProgrammeRows(typed, initial=shown, prefix=PREFIX, form_kwargs={"names": names}))


def initial_of(row: ProgrammedWork, names: WorkNames) -> dict[str, Any]:
    return {"row": row.pk, "work": names.labels[row.work_id], **{name: getattr(row, name) for name in BESIDE}}


def stored_programme(performance: Performance) -> list[ProgrammedWork]:
    """Return every row, those of deleted works too."""
    stored = ProgrammedWork.objects.filter(performance=performance.pk).select_related("work")
    return list(stored.order_by("order")) if performance.pk else []


ProgrammeRows = forms.formset_factory(
    ProgrammeForm, formset=Programme, extra=1, max_num=MOST, absolute_max=MOST, validate_max=True
)


# ---- rows moved and added without saving


def with_another_row(typed: Any) -> Any:
    """Return what was typed with an empty row more."""
    return rows.with_another_row(typed, PREFIX, MOST)


def with_row_earlier(typed: Any, place: int) -> Any:
    """Return what was typed with the row at this place before the one above it."""
    return rows.with_row_earlier(typed, PREFIX, ProgrammeForm.base_fields, MOST, place)


def rows_typed(works: Sequence[str]) -> dict[str, str]:
    """Return the fields in which these works would have been typed."""
    typed = {f"{PREFIX}-{place}-work": name for place, name in enumerate(works)}
    return {f"{PREFIX}-TOTAL_FORMS": str(len(works)), f"{PREFIX}-INITIAL_FORMS": "0", **typed}
