"""The form of a work: grouped in the order in which a composer thinks; a title alone is enough.

What was typed for the instrumentation and the duration is kept beside what was read from it. Where it cannot be read,
the form comes back with the mistake at its place, and with the offer to keep the text as it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, cast

from django import forms
from django.forms.boundfield import BoundField
from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.exchange.movement_lists import MovementListError, read_movements, write_movements
from catalogue.facts import MovementFacts
from catalogue.gathering.works import movements_of
from catalogue.instrumentation import InstrumentationError
from catalogue.models import Commission, Composer, Movement, Work
from catalogue.models.fields import refuse_unprintable
from catalogue.rules.identifiers import Identifier
from catalogue.timing import DurationError, read_duration
from catalogue.web.forms.fields import DateField, IdentifierField, LanguageTagField, ReadField, StrengthsTypedField
from catalogue.web.forms.rows import in_words
from catalogue.web.forms.work_field import WorkField
from catalogue.web.readings import canonical_text

LONG = {"rows": 4}


@dataclass(frozen=True, slots=True)
class Group:
    """A section of the form: its heading and the names of its fields, main ones or those behind “more”."""

    heading: str | Promise
    names: tuple[str, ...]
    in_a_row: bool = False
    anchor: str = ""


MAIN = (
    Group(_("The title"), ("title", "original_title", "translated_title")),
    Group(_("The players"), ("instrumentation_typed", "category"), anchor="players"),
    Group(_("Time"), ("duration_typed", "movements", "completed")),
)
MORE = (
    Group(_("More on the title"), ("subtitle", "title_language", "original_language", "transliteration")),
    Group(_("More on the players"), ("string_strengths", "electronics_note", "parts_on_hire")),
    Group(_("An open form lasts"), ("least_duration", "most_duration"), in_a_row=True),
    Group(_("Other dates"), ("begun", "revised", "published"), in_a_row=True),
    Group(_("Words"), ("text_author", "text_language")),
    Group(_("Where it comes from"), ("dedication",)),
    Group(_("Numbers"), ("catalogue_number", "publisher", "iswc", "ismn")),
    Group(_("Versions"), ("version_of", "version_kind", "version_label")),
    Group(_("Public lists"), ("status",)),
    Group(_("Notes"), ("programme_note", "notes")),
    Group(_("For yourself"), ("strength",)),
)


class WorkForm(forms.ModelForm):
    completed = DateField(label=_("Completed"), help_text=_("2025, March 2025, 3 March 2025 or c. 1998."))
    least_duration = ReadField(
        read=read_duration, label=_("At least"), widget=forms.TextInput(attrs={"class": "short"})
    )
    most_duration = ReadField(
        read=read_duration,
        label=_("At most"),
        help_text=_("The duration above is then the usual one."),
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    begun = DateField(label=_("Begun"))
    revised = DateField(label=_("Revised"))
    published = DateField(label=_("Published"))
    title_language = LanguageTagField(
        label=_("Language of the title"), help_text=_("As a tag, such as de, el-Latn or ja.")
    )
    original_language = LanguageTagField(
        label=_("Language of the original title"), help_text=_("As a tag, such as el, he or ja.")
    )
    string_strengths = StrengthsTypedField(
        label=_("Strings, where the instrumentation does not count them"),
        help_text=_("Players from first violins to double basses: 14.12.10.8.6."),
    )
    iswc = IdentifierField(Identifier.ISWC, label=_("ISWC"), help_text=_("T, ten digits: T-034.524.680-1."))
    ismn = IdentifierField(Identifier.ISMN, label=_("ISMN"), help_text=_("Of the score: 979-0-…"))
    movements = forms.CharField(
        label=_("Movements"),
        help_text=_("One a line, with its duration: I. Spring 4:05. Add attacca where there is no break after it."),
        required=False,
        max_length=50_000,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 3}),
    )
    keep_instrumentation = forms.BooleanField(label=_("Keep it as typed"), required=False)
    keep_duration = forms.BooleanField(label=_("Keep it as typed"), required=False)
    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)
    uid = forms.UUIDField(widget=forms.HiddenInput, required=False)

    class Meta:
        model = Work
        fields = [
            "title", "original_title", "translated_title", "subtitle", "title_language", "original_language",
            "transliteration", "instrumentation_typed", "category", "string_strengths", "electronics_note",
            "parts_on_hire", "duration_typed", "least_duration", "most_duration", "completed", "begun", "revised",
            "published", "text_author", "text_language", "dedication", "catalogue_number", "publisher", "iswc", "ismn",
            "version_of", "version_label", "version_kind", "status", "programme_note", "notes",
            "strength",
        ]  # fmt: skip
        labels = {
            "title": _("Title"),
            "original_title": _("Original title"),
            "translated_title": _("Translation"),
            "subtitle": _("Subtitle"),
            "transliteration": _("Transliteration"),
            "instrumentation_typed": _("Instrumentation"),
            "category": _("Category"),
            "electronics_note": _("Electronics"),
            "parts_on_hire": _("The parts are on hire"),
            "duration_typed": _("Duration"),
            "text_author": _("Text by"),
            "text_language": _("Language of the text"),
            "dedication": _("Dedicated to"),
            "catalogue_number": _("Catalogue number"),
            "publisher": _("Publisher"),
            "version_label": _("Which version"),
            "version_kind": _("What sort of version"),
            "status": _("Where it stands"),
            "programme_note": _("Programme note"),
            "notes": _("Notes for yourself"),
            "strength": _("How strong the work is"),
        }
        help_texts = {
            "title": _("As it stands on the score, with capitals and accents."),
            "original_title": _("In its own script, if the title above is a transcription."),
            "subtitle": _("As printed, such as: for clarinet and string quartet."),
            "transliteration": _("In Latin letters, if the title above is not one."),
            "instrumentation_typed": _(
                "Shorthand, abbreviations or plain words, in English, German, French, Italian or Spanish."
            ),
            "electronics_note": _("What is needed, and who plays it."),
            "duration_typed": _("As you would write it: 14′30, ca. 14½ min, 0:14:30."),
            "text_author": _("Leave empty where nothing is sung or spoken."),
            "version_label": _("Such as: reduced orchestra, 2019."),
            "status": _("Withdrawn, early and unfinished works stay in the catalogue and off public lists."),
            "notes": _("Never printed, never public."),
            "strength": _("For choosing what to send to a call; never printed, never public."),
        }
        widgets = {
            "title": forms.TextInput(attrs={"class": "title", "dir": "auto"}),
            "original_title": forms.TextInput(attrs={"class": "title", "dir": "auto"}),
            "translated_title": forms.TextInput(attrs={"class": "title", "dir": "auto"}),
            "instrumentation_typed": forms.Textarea(attrs={"rows": 2, "class": "code", "spellcheck": "false"}),
            "duration_typed": forms.TextInput(attrs={"class": "short"}),
            "catalogue_number": forms.TextInput(attrs={"class": "short"}),
            "electronics_note": forms.Textarea(attrs=LONG),
            "programme_note": forms.Textarea(attrs=LONG),
            "notes": forms.Textarea(attrs=LONG),
        }
        error_messages = {"title": {"required": _("A work needs a title; everything else can wait.")}}

    def __init__(self, *args: Any, composer: Composer, **options: Any) -> None:
        super().__init__(*args, **options)
        self.instance.composer = composer
        others = Work.objects.filter(composer=composer, version_of__isnull=True).exclude(pk=self.instance.pk)
        first = WorkField(
            required=False,
            label=_("This is a version of"),
            empty_label=_("no other work: this is the first version"),
        )
        first.offer(others, composer)
        self.fields["version_of"] = first
        if self.instance.pk:
            stored = {
                "instrumentation_typed": self.instance.instrumentation_typed or self.instance.instrumentation,
                "duration_typed": self.instance.duration_typed or str(self.instance.duration or ""),
                "movements": write_movements(movements_of(self.instance)),
                "saves": self.instance.saves,
                "keep_instrumentation": bool(self.instance.instrumentation_typed) and not self.instance.instrumentation,
                "keep_duration": bool(self.instance.duration_typed) and not self.instance.duration,
            }
            self.initial.update(stored)
        self.initial["uid"] = self.instance.uid
        del self.fields["uid" if self.instance.pk else "saves"]
        for name, reading in (
            ("title", "title"),
            ("instrumentation_typed", "instrumentation"),
            ("duration_typed", "duration"),
            ("movements", "movements"),
        ):
            self._read_live(name, reading, composer.slug)

    def _read_live(self, name: str, reading: str, slug: str) -> None:
        """Ask for the reading whenever the typing pauses; without scripts it comes when the form is sent."""
        besides = f"?besides={self.instance.pk}" if self.instance.pk else ""
        self.fields[name].widget.attrs |= {
            "data-hx-post": reverse(f"{reading}-reading", args=[slug]) + besides,
            "data-hx-trigger": "input changed delay:400ms",
            "data-hx-target": f"#{reading}-reading",
            "data-hx-params": name,
        }

    # ---- reading what was typed

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        self.instance.saves = cleaned.get("saves") or 0
        self.instance.uid = cleaned.get("uid") or self.instance.uid
        self._read_instrumentation(cleaned.get("instrumentation_typed", ""))
        self._read_duration(cleaned.get("duration_typed", ""))
        return cleaned

    def _read_instrumentation(self, text: str) -> None:
        try:
            self.instance.instrumentation = canonical_text(text)
        except InstrumentationError as mistake:
            self.instance.instrumentation = ""
            self._refuse("instrumentation_typed", mistake.reason, keep="keep_instrumentation")

    def _read_duration(self, text: str) -> None:
        try:
            self.instance.duration = read_duration(text) if text else None
        except DurationError as mistake:
            self.instance.duration = None
            self._refuse("duration_typed", mistake.reason, keep="keep_duration")

    def _refuse(self, name: str, reason: str, *, keep: str) -> None:
        """Refuse a text that cannot be read, unless it is to be kept as typed."""
        if not self.cleaned_data.get(keep):
            self.add_error(name, reason)

    def clean_movements(self) -> str:
        text: str = self.cleaned_data["movements"]
        try:
            read_movements(text)
        except MovementListError as mistake:
            raise forms.ValidationError(mistake.reason) from mistake
        return text

    def new_movements(self) -> list[Movement]:
        """Return the movements that were typed; rows that are there already keep their history."""
        stored = list(self.instance.movements.order_by("number")) if self.instance.pk else []
        typed = read_movements(self.cleaned_data["movements"])
        return [told(stored[place] if place < len(stored) else Movement(), one) for place, one in enumerate(typed)]

    # ---- how it is laid out

    def main_groups(self) -> Iterator[tuple[Group, list[BoundField]]]:
        return ((group, [self[name] for name in group.names]) for group in MAIN)

    def more_groups(self) -> Iterator[tuple[Group, list[BoundField]]]:
        return ((group, [self[name] for name in group.names]) for group in MORE)

    @property
    def more_is_filled(self) -> bool:
        """Whether something behind “more” is filled in or mistaken, so that it is better shown."""
        usual = {"status": "active"}
        fields = [field for _group, fields in self.more_groups() for field in fields]
        return any(
            field.errors or field.value() not in {None, "", (), False, usual.get(field.name)} for field in fields
        )


def told(movement: Movement, facts: MovementFacts) -> Movement:
    movement.title, movement.duration, movement.attacca = facts.title, facts.duration, facts.attacca
    return movement


class CommissionForm(forms.Form):
    """One commissioning body; an empty row is none."""

    name = forms.CharField(label=_("Commissioned by"), max_length=200, required=False, validators=[refuse_unprintable])
    place = forms.CharField(label=_("Place"), max_length=200, required=False, validators=[refuse_unprintable])
    funder = forms.CharField(
        label=_("With funds from"), max_length=200, required=False, validators=[refuse_unprintable]
    )

    def clean(self) -> dict[str, Any]:
        typed = self.cleaned_data
        if not typed.get("name") and (typed.get("place") or typed.get("funder")):
            self.add_error("name", _("Name who commissioned the work."))
        return typed


class Commissions(forms.BaseFormSet):
    """The commissions of a work, each in a row, and an empty row more."""

    def rows(self, stored: list[Commission]) -> list[Commission]:
        """Return the commissions that were typed; those that are there already keep their history."""
        typed = [form.cleaned_data for form in self.forms if form.cleaned_data.get("name")]
        return [
            commissioned(stored[place] if place < len(stored) else Commission(), one) for place, one in enumerate(typed)
        ]

    def in_words(self) -> str:
        """Return the commissions as one reads them, one a line."""
        return in_words(self, CommissionForm.base_fields, first="name")


def commissioned(commission: Commission, typed: dict[str, str]) -> Commission:
    """Put what was typed into a commission; an organisation of the catalogue stays while its name is not changed."""
    if typed["name"] != commission.body:
        commission.organisation, commission.name = None, typed["name"]
    commission.place, commission.funder = typed["place"], typed["funder"]
    return commission


def commission_rows(work: Work, typed: Any = None) -> Commissions:
    stored = [{"name": one.body, "place": one.place, "funder": one.funder} for one in commissions_in_order(work)]
    return cast(Commissions, CommissionRows(typed, initial=stored, prefix="commissions"))


def commissions_in_order(work: Work) -> list[Commission]:
    return list(work.commissions.select_related("organisation").order_by("pk")) if work.pk else []


CommissionRows = forms.formset_factory(CommissionForm, formset=Commissions, extra=1, max_num=20, absolute_max=20)
