"""The forms of a call: its text pasted, its conditions confirmed each beside the words it came from, what was sent."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime, time, timedelta
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.forms.boundfield import BoundField
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.instrumentation import InstrumentationError, read
from catalogue.models.conditions import choices_of
from catalogue.models.fields import LONG_LINE, TEXT, refuse_unprintable
from catalogue.rules.calls.deadlines import with_offset
from catalogue.rules.calls.reading import LONGEST
from catalogue.rules.calls.terms import (
    Age,
    Basis,
    Call,
    CallKind,
    Electronics,
    ElectronicsKind,
    Forces,
    ForcesRule,
    Novelty,
    Players,
    Proposal,
    RecordingRule,
    TextRights,
    Versions,
)
from catalogue.terms import SubmissionStatus
from catalogue.timing import moment_at, zone_named
from catalogue.web.forms.call_fields import (
    WHOLE_DAY,
    day_field,
    length_field,
    number_field,
    one_of,
    read_hour,
    write_hour,
    yes_or_no,
)
from catalogue.web.forms.call_further import FurtherFields, further_initial
from catalogue.web.forms.call_groups import GROUPS, SOURCES
from catalogue.web.forms.fields import ReadField


class PasteCallForm(forms.Form):
    """The text of a call."""

    text = forms.CharField(
        label=_("The call’s text"),
        help_text=_("All of it, as you found it: rules, deadline, what to send."),
        max_length=LONGEST,
        strip=False,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 16, "dir": "auto", "spellcheck": "false"}),
        error_messages={"required": _("Paste the text of the call.")},
    )

    def clean_text(self) -> str:
        return str(self.cleaned_data["text"]).replace("\r\n", "\n")


class BeginCallForm(forms.Form):
    """The title of a call whose conditions are typed, for there is no text to paste."""

    title = forms.CharField(
        label=_("Title"),
        max_length=LONG_LINE,
        validators=[refuse_unprintable],
        error_messages={"required": _("Enter what the call is called.")},
    )


class CallForm(FurtherFields):
    """The conditions of a call; what no field shows is kept as it was read."""

    title = forms.CharField(label=_("Title"), max_length=LONG_LINE, validators=[refuse_unprintable])
    organiser = forms.CharField(
        label=_("Organiser"), max_length=LONG_LINE, required=False, validators=[refuse_unprintable]
    )
    kind = one_of(CallKind, _("Kind"), unsaid=False)
    website = forms.URLField(label=_("Their page"), required=False, max_length=500, assume_scheme="https")
    deadline_day = day_field(_("Closes on"))
    deadline_time = ReadField(
        read=read_hour,
        write=write_hour,
        label=_("At"),
        help_text=_("24:00 is the midnight at the end of that day."),
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    deadline_zone = forms.CharField(
        label=_("By the clocks of"),
        max_length=64,
        required=False,
        help_text=_("Such as Europe/London. Without it the hour says little: ask the organiser."),
    )
    results_on = day_field(_("Results on"))
    fee = forms.CharField(label=_("Fee"), max_length=LONG_LINE, required=False, validators=[refuse_unprintable])

    forces = forms.CharField(
        label=_("Players"),
        required=False,
        max_length=2_000,
        help_text=_("As in a works list; one line for each alternative."),
        widget=forms.Textarea(attrs={"rows": 2, "spellcheck": "false"}),
    )
    forces_rule = one_of(ForcesRule, _("How binding they are"), unsaid=False)
    players_min = number_field(_("Players at least"))
    players_max = number_field(_("Players at most"))
    extra_players = number_field(_("Further players on any instrument"), 20)
    strings_compulsory = yes_or_no(_("Full strings are compulsory"))
    usual_doublings = yes_or_no(_("Usual doublings are allowed"))
    timpani_among_percussion = yes_or_no(_("The timpanist is one of the percussionists"))
    soloists_excluded = yes_or_no(_("No soloists"))
    voices_excluded = yes_or_no(_("No voices"))
    electronics = one_of(Electronics, _("Electronics"))
    electronics_only = one_of(ElectronicsKind, _("Of one kind only"))
    channels_max = number_field(_("Channels at most"))

    duration_min = length_field(_("Duration at least"))
    duration_max = length_field(_("Duration at most"))
    duration_strict = yes_or_no(_("Shorter than that: the limit itself is too long"))
    duration_tolerance = number_field(_("Tolerance in seconds"), 3600)
    works_min = number_field(_("Works at least"))
    works_max = number_field(_("Works at most"))
    total_min = length_field(_("Together at least"))
    total_max = length_field(_("Together at most"))

    composed_from = day_field(_("Written on or after"))
    composed_until = day_field(_("Written on or before"))
    composed_basis = one_of(Basis, _("What counts is when it was"), unsaid=False)
    versions = one_of(Versions, _("Versions and revisions"))
    unperformed = yes_or_no(_("Must be unperformed"))
    novelty_by = one_of(Players, _("Performances count that are by"), unsaid=False)
    novelty_closed = yes_or_no(_("Closed readings and workshops count"))
    novelty_planned = yes_or_no(_("Performances that are planned count"))
    unpublished = yes_or_no(_("Must be unpublished"))
    unrecorded = yes_or_no(_("Must be unrecorded"))

    age_limit = number_field(_("Highest age"), 150)
    age_on = day_field(_("Counted on"))
    born_from = day_field(_("Born on or after"))

    anonymous = yes_or_no(_("The name must not appear"))
    exclusive = yes_or_no(_("Not to be sent elsewhere at the same time"))
    recording = one_of(RecordingRule, _("Recording"))
    recording_live = yes_or_no(_("It must be of a live performance"))
    note_words = number_field(_("Words of the note at most"), 10_000)
    documents = forms.CharField(
        label=_("To send"),
        required=False,
        max_length=4_000,
        help_text=_("One a line."),
        widget=forms.Textarea(attrs={"rows": 5}),
    )
    notes = forms.CharField(
        label=_("Notes for yourself"), required=False, max_length=TEXT, validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 3}),
    )  # fmt: skip
    looked = yes_or_no(_("I have looked at these: leave them out from now on"))
    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, proposal: Proposal, **options: Any) -> None:
        super().__init__(*args, **options)
        self.proposal = proposal

    # ---- what was typed

    def clean_forces(self) -> tuple[str, ...]:
        lines = [line.strip() for line in str(self.cleaned_data["forces"]).splitlines() if line.strip()]
        for line in lines:
            try:
                read(line)
            except InstrumentationError as mistake:
                raise ValidationError(mistake.reason) from mistake
        return tuple(lines)

    def clean_deadline_zone(self) -> str:
        name = str(self.cleaned_data["deadline_zone"]).strip()
        if name:
            try:
                zone_named(name)
            except ValueError as mistake:
                raise ValidationError(getattr(mistake, "reason", str(mistake))) from mistake
        return name

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for least, most in (("duration_min", "duration_max"), ("works_min", "works_max"), ("total_min", "total_max"),
                            ("players_min", "players_max")):  # fmt: skip
            if cleaned.get(least) is not None and cleaned.get(most) is not None and cleaned[least] > cleaned[most]:
                self.add_error(most, _("The most cannot be less than the least."))
        if cleaned.get("deadline_time") is not None and not cleaned.get("deadline_day"):
            self.add_error("deadline_day", _("An hour needs its day."))
        return cleaned

    def deadline(self) -> datetime | None:
        """Return the moment, nothing on an unknown clock. Raises ValueError where the clocks skip it."""
        cleaned = self.cleaned_data
        if cleaned["deadline_time"] is None or not cleaned["deadline_zone"]:
            return None
        wall = datetime.combine(cleaned["deadline_day"], time()) + cleaned["deadline_time"]
        at = moment_at(wall.date(), wall.time(), cleaned["deadline_zone"], second=False)
        return with_offset(at.astimezone(zone_named(cleaned["deadline_zone"])))

    def terms(self, base: Call) -> Call:
        """Return the call as it was typed, on top of what no field shows."""
        cleaned = self.cleaned_data
        same = ("title", "organiser", "deadline_day", "deadline_zone", "fee", "soloists_excluded", "voices_excluded",
                "duration_min", "duration_max", "duration_strict", "duration_tolerance", "works_min", "works_max",
                "total_min", "total_max", "composed_from", "composed_until", "results_on",
                "channels_max", "channels_exact", "anonymous", "exclusive", "recording_live", "note_words")  # fmt: skip
        at, hour = self.deadline(), cleaned["deadline_time"]
        return replace(
            base,
            **{name: cleaned[name] for name in same},
            unperformed=demanded(cleaned["unperformed"], base.unperformed),
            unpublished=demanded(cleaned["unpublished"], base.unpublished),
            unrecorded=demanded(cleaned["unrecorded"], base.unrecorded),
            kind=CallKind(cleaned["kind"]),
            deadline=at,
            deadline_hour="" if at or hour is None else write_hour(hour),
            forces=self.forces_terms(base.forces),
            electronics=Electronics(cleaned["electronics"]) if cleaned["electronics"] else None,
            electronics_only=ElectronicsKind(cleaned["electronics_only"]) if cleaned["electronics_only"] else None,
            composed_basis=Basis(cleaned["composed_basis"]),
            versions=Versions(cleaned["versions"]),
            novelty=self.novelty(base.novelty),
            age=self.age(base.age),
            residence=self.residence_terms(base.residence),
            set_rules=self.set_terms(base.set_rules),
            portal=self.portal_terms(),
            text_languages=cleaned["text_languages"],
            text_rights=TextRights(cleaned["text_rights"]) if cleaned["text_rights"] else None,
            recording=RecordingRule(cleaned["recording"]) if cleaned["recording"] else None,
            documents=tuple(line.strip() for line in cleaned["documents"].splitlines() if line.strip()),
            contradictions=() if cleaned["looked"] else base.contradictions,
        )

    def forces_terms(self, base: Forces) -> Forces:
        cleaned = self.cleaned_data
        names = ("usual_doublings", "timpani_among_percussion", "strings_compulsory", "players_min", "players_max",
                 "extra_players")  # fmt: skip
        rule = ForcesRule(cleaned["forces_rule"])
        return replace(base, texts=cleaned["forces"], rule=rule, **{name: cleaned[name] for name in names})

    def novelty(self, base: Novelty) -> Novelty:
        cleaned = self.cleaned_data
        return replace(
            self.novelty_terms(base),
            by=Players(cleaned["novelty_by"]),
            closed=cleaned["novelty_closed"],
            planned=cleaned["novelty_planned"],
        )

    def age(self, base: Age | None) -> Age | None:
        cleaned = self.cleaned_data
        if cleaned["age_limit"] is None and cleaned["age_least"] is None and not cleaned["born_from"]:
            return None
        born = cleaned["born_from"]
        after = base.after if base and base.born == born else False
        kept = base or Age()
        ages = {"limit": cleaned["age_limit"], "least": cleaned["age_least"]}
        return replace(kept, **ages, on=cleaned["age_on"], born=born, after=after)

    # ---- what is shown

    def groups(self) -> Iterator[Group]:
        for name, title, fields in GROUPS:
            yield Group(name, title, tuple(self.row(one) for one in fields))

    def row(self, name: str) -> Row:
        return Row(self[name], "" if self.errors.get(name) else self.proposal.sentence_of(SOURCES.get(name, name)))


@dataclass(frozen=True, slots=True)
class Row:
    """A field and the words of the call that it came from."""

    field: BoundField
    words: str


@dataclass(frozen=True, slots=True)
class Group:
    id: str
    title: Promise
    rows: tuple[Row, ...]


def demanded(checked: bool, before: bool | None) -> bool | None:
    """Return a demand; one that the call has not named and nobody has made stays unsaid."""
    return True if checked else None if before is None else False


def hour_of(at: datetime, call: Call) -> str:
    is_end = call.deadline_day is not None and at.date() > call.deadline_day and at.hour == at.minute == 0
    return write_hour(WHOLE_DAY if is_end else timedelta(hours=at.hour, minutes=at.minute))


def initial_of(call: Call, *, website: str, notes: str, saves: int) -> dict[str, Any]:
    """Return what the form shows of a call."""
    shown = {name: getattr(call, name) for name in CallForm.base_fields if hasattr(call, name)}
    at = call.deadline
    return shown | {
        "deadline_day": call.closes,
        "deadline_time": hour_of(at, call) if at else call.deadline_hour,
        "forces": "\n".join(call.forces.texts),
        "forces_rule": call.forces.rule,
        **{name: getattr(call.forces, name) for name in CallForm.base_fields if hasattr(call.forces, name)},
        "novelty_by": call.novelty.by,
        "novelty_closed": call.novelty.closed,
        "novelty_planned": call.novelty.planned,
        "age_limit": call.age.limit if call.age else None,
        "age_on": call.age.on if call.age else None,
        "born_from": call.age.born if call.age else None,
        "documents": "\n".join(call.documents),
        **further_initial(call),
        "website": website,
        "notes": notes,
        "saves": saves,
    }


class SubmissionForm(forms.Form):
    """How far a submission has come; ``saves`` is how often it had been saved when the form was opened."""

    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)
    status = forms.ChoiceField(label=_("State"), choices=choices_of(SubmissionStatus))
    sent_on = day_field(_("Sent on"))
    decided_on = day_field(_("Decided on"))
    outcome = forms.CharField(label=_("Outcome"), max_length=LONG_LINE, required=False, validators=[refuse_unprintable])
    feedback = forms.CharField(
        label=_("Feedback"), required=False, max_length=TEXT, validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 3}),
    )  # fmt: skip

    def noted(self) -> dict[str, Any]:
        """Return what is noted of the submission, and the number of saves that was seen."""
        cleaned = self.cleaned_data
        return {**cleaned, "status": SubmissionStatus(cleaned["status"]), "saves": cleaned["saves"] or 0}
