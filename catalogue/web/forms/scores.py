"""The forms that take a score file in: the file, and which of the facts found in it are kept, one by one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, cast
from uuid import uuid4

from django import forms
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from catalogue.exchange.movement_lists import MovementListError, read_movements
from catalogue.exchange.scores import Findings
from catalogue.instrumentation import InstrumentationError
from catalogue.models import Composer, Movement, Work
from catalogue.models.fields import refuse_unprintable
from catalogue.timing import Duration, DurationError, TempoError, read_duration, read_tempo_map, write_duration
from catalogue.web.forms.work_field import WorkField
from catalogue.web.readings import canonical_text
from catalogue.web.uploads import is_too_large

TOO_LARGE = _("This file is larger than 100 MB.")
TAKE = {
    "title": _("Take the title over"),
    "movement": _("Take the movement over"),
    "instrumentation_typed": _("Take the instrumentation over"),
    "duration_typed": _("Take the duration over"),
    "tempo_map": _("Take the tempo map over"),
    "text_author": _("Take the author of the text over"),
}
FACTS = tuple(TAKE)
OF_WHOLE = ("duration_typed", "tempo_map")
"""What a file of one movement tells of that movement alone."""
WRITERS = ("lyricist", "poet", "librettist", "text")


class ScoreForm(forms.Form):
    file = forms.FileField(
        label=_("Score file"),
        help_text=_(
            "MusicXML, plain or compressed (.musicxml, .xml, .mxl), up to 100 MB; notation programs export it."
        ),
        max_length=255,
        allow_empty_file=True,
        widget=forms.FileInput(attrs={"accept": ".musicxml,.xml,.mxl"}),
    )
    work = WorkField(label=_("The score is of"), required=False, empty_label=_("a work that is not listed yet"))

    def __init__(self, *args: Any, composer: Composer, request: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        cast(WorkField, self.fields["work"]).offer(Work.objects.filter(composer=composer), composer)
        if is_too_large(request, "file"):
            self.fields["file"].error_messages["required"] = TOO_LARGE


def of_composer(field: Any, composer: Composer) -> forms.Field:
    field.queryset = Work.objects.filter(composer=composer).in_title_order()
    return field


class FactsForm(forms.Form):
    """What was found, each fact with a box that says whether it is taken over."""

    work = forms.ModelChoiceField(Work.objects.none(), required=False, widget=forms.HiddenInput)
    saves = forms.IntegerField(required=False, widget=forms.HiddenInput)
    uid = forms.UUIDField(required=False, widget=forms.HiddenInput)
    title = forms.CharField(label=_("Title"), max_length=300, required=False, validators=[refuse_unprintable])
    movement = forms.CharField(
        label=_("Movement"),
        help_text=_("One of this title gets the duration; another is added behind the last."),
        max_length=520,
        required=False,
        validators=[refuse_unprintable],
    )
    instrumentation_typed = forms.CharField(
        label=_("Instrumentation"),
        max_length=2000,
        required=False,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 2, "class": "code", "spellcheck": "false"}),
    )
    duration_typed = forms.CharField(
        label=_("Duration"),
        max_length=100,
        required=False,
        validators=[refuse_unprintable],
        widget=forms.TextInput(attrs={"class": "short"}),
    )
    tempo_map = forms.CharField(
        label=_("Tempo map"),
        max_length=200_000,
        required=False,
        widget=forms.Textarea(attrs={"rows": 8, "class": "code capped", "spellcheck": "false"}),
    )
    text_author = forms.CharField(label=_("Text by"), max_length=300, required=False, validators=[refuse_unprintable])

    def __init__(self, *args: Any, composer: Composer, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["work"] = of_composer(self.fields["work"], composer)
        for name, label in TAKE.items():
            self.fields[f"take_{name}"] = forms.BooleanField(label=label, required=False)

    @classmethod
    def found(cls, score: Findings, work: Work | None, composer: Composer) -> FactsForm:
        """Return the form as it is first shown: what the work lacks is ticked, what it has is not."""
        facts = facts_of(score)
        of_part = OF_WHOLE if score.movements else ()
        ticks = {f"take_{name}": name not in of_part and not stands_in(work, name) for name in facts}
        kept = {"work": work, "saves": work.saves if work else None, "uid": uuid4()}
        return cls(initial={**facts, **ticks, **kept}, composer=composer)

    def rows(self) -> Iterator[tuple[BoundField, BoundField, str]]:
        """Give each fact that was found, with its box and with what the work has now."""
        work = self.work_meant()
        for name in FACTS:
            if name == "title" or self[name].value() or self[name].errors:
                yield self[name], self[f"take_{name}"], stands_in(work, name)

    def work_meant(self) -> Work | None:
        """Return the work that the facts are for, ``None`` for a new one."""
        if not self.is_bound:
            return self.initial.get("work")
        return self.cleaned_data.get("work") if hasattr(self, "cleaned_data") else None

    def takes(self, name: str) -> bool:
        return bool(self.cleaned_data.get(f"take_{name}"))

    def taken(self) -> tuple[str, ...]:
        return tuple(name for name in FACTS if self.takes(name))

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        if not self.errors and not self.taken():
            raise forms.ValidationError(_("Tick at least one fact to be taken over."))
        if cleaned.get("work") is None and not (self.takes("title") and cleaned.get("title")):
            self.add_error("title", _("A work needs a title; everything else can wait."))
        for name, read, mistake in (
            ("movement", read_movements, MovementListError),
            ("instrumentation_typed", canonical_text, InstrumentationError),
            ("duration_typed", read_duration, DurationError),
            ("tempo_map", read_tempo_map, TempoError),
        ):
            if self.takes(name) and cleaned.get(name):
                self._check(name, read, mistake)
        return cleaned

    def _check(self, name: str, read: Any, mistake: type[ValueError]) -> None:
        try:
            read(self.cleaned_data[name])
        except mistake as fault:
            self.add_error(name, getattr(fault, "reason", str(fault)))

    def told(self, work: Work) -> Work:
        """Put the facts that are taken over into a work."""
        if work.pk is None:
            work.uid = self.cleaned_data["uid"] or work.uid
        elif self.cleaned_data["saves"] is not None:
            work.saves = self.cleaned_data["saves"]
        taken = {name: self.cleaned_data[name] for name in self.taken() if name != "movement"}
        for name, text in taken.items():
            setattr(work, name, text)
        if "instrumentation_typed" in taken:
            work.instrumentation = canonical_text(taken["instrumentation_typed"])
        if "duration_typed" in taken:
            work.duration = read_duration(taken["duration_typed"]) if taken["duration_typed"] else None
        return work

    def movements_of(self, work: Work) -> list[Movement] | None:
        """Return all movements of a work with the one that is taken over, nothing where none is."""
        told = read_movements(self.cleaned_data["movement"]) if self.takes("movement") else ()
        if not told:
            return None
        stored = list(work.movements.order_by("number")) if work.pk else []
        for one in told:
            named = (row for row in stored if row.title.casefold() == one.title.casefold())
            movement = next(named, None) or Movement(title=one.title)
            movement.duration = one.duration or movement.duration
            stored += [] if movement in stored else [movement]
        return stored


def facts_of(score: Findings) -> dict[str, str]:
    """Return what a score says as it is typed into a work's form."""
    seconds = "" if score.seconds is None else write_duration(Duration(round(score.seconds), approximate=True))
    writers = [one.name for one in score.creators if one.kind.lower() in WRITERS]
    return {
        "title": score.title,
        "movement": " ".join((*score.movements, seconds)).strip() if score.movements else "",
        "instrumentation_typed": score.instrumentation,
        "duration_typed": seconds,
        "tempo_map": score.tempo_map,
        "text_author": ", ".join(writers),
    }


def stands_in(work: Work | None, name: str) -> str:
    """Return what a work says of a fact now, as it is shown."""
    if work is None:
        return ""
    if name == "movement":
        return ", ".join(one.title or f"{one.number}." for one in work.movements.order_by("number"))
    if name == "instrumentation_typed":
        return work.instrumentation_typed or work.instrumentation
    if name == "duration_typed":
        return work.duration_typed or str(work.duration or "")
    return str(getattr(work, name))
