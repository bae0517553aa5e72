"""What players have to know and to bring: percussion, signs, tunings."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from catalogue.models.conditions import between, choices_of, filled, known
from catalogue.models.fields import LONG_LINE, SearchTextField, line, text
from catalogue.models.kept import KeptOfWork
from catalogue.terms import SignGroup


class PercussionInstrument(KeptOfWork):
    """An instrument of the percussion list; ``player`` is the number of the player who has it.

    ``compass`` is a keyboard's range, ``pitches`` the notes that are needed of a set; ``shared_with`` names players.
    """

    player = models.PositiveSmallIntegerField(default=1, validators=[MinValueValidator(1), MaxValueValidator(99)])
    instrument = line(blank=False)
    number = models.PositiveSmallIntegerField(default=1, validators=[MinValueValidator(1), MaxValueValidator(999)])
    size = line()
    compass = line()
    pitches = line()
    beaters = line()
    shared_with = line()
    needs_power = models.BooleanField(default=False)
    provided_by = line()
    position = models.PositiveSmallIntegerField(default=0)
    search_text = SearchTextField(of=("instrument", "size", "compass", "pitches", "beaters", "notes"))

    class Meta:
        constraints = [
            filled("percussion", "instrument"),
            between("percussion", "player", 1, 99),
            between("percussion", "number", 1, 999),
        ]

    def __str__(self) -> str:
        number = f"{self.number} " if self.number > 1 else ""
        return f"{number}{self.instrument}"


class NotationSign(KeptOfWork):
    """A row of the notation key.

    ``smufl`` is the name of a sign in the Standard Music Font Layout, ``cents`` what an accidental alters, ``meaning``
    what the player does, ``first_at`` the bar or rehearsal mark where it first stands.
    """

    group = models.CharField(max_length=20, choices=choices_of(SignGroup), default=SignGroup.ACCIDENTAL.value)
    name = line(blank=False)
    smufl = line()
    cents = models.DecimalField(
        max_digits=7,
        decimal_places=3,
        null=True,
        blank=True,
        validators=[MinValueValidator(-1200), MaxValueValidator(1200)],
    )
    meaning = text()
    concerns = line()
    first_at = line()
    system = line()
    position = models.PositiveSmallIntegerField(default=0)
    search_text = SearchTextField(of=("name", "smufl", "meaning", "concerns", "system", "notes"))

    class Meta:
        constraints = [
            known("sign", "group", SignGroup),
            filled("sign", "name"),
            between("sign", "cents", -1200, 1200),
        ]

    def __str__(self) -> str:
        return self.name


class TuningSystem(KeptOfWork):
    """How the pitches of a work are tuned. ``reference_hertz`` is the frequency of ``reference_note``."""

    name = line(blank=False)
    divisions = models.PositiveSmallIntegerField(
        null=True, blank=True, validators=[MinValueValidator(1), MaxValueValidator(1200)]
    )
    reference_note = line(20)
    reference_hertz = models.DecimalField(
        max_digits=8, decimal_places=3, null=True, blank=True, validators=[MinValueValidator(1)]
    )
    description = text()
    source = line(LONG_LINE)
    search_text = SearchTextField(of=("name", "description", "source", "notes"))

    class Meta:
        constraints = [
            filled("tuning", "name"),
            between("tuning", "divisions", 1, 1200),
            between("tuning", "reference_hertz", 1, 99_999),
        ]

    def __str__(self) -> str:
        return self.name


class Retuning(KeptOfWork):
    """An instrument that is not tuned as usual: to which notes, or by how many cents, and how it is then written."""

    instrument = line(blank=False)
    tuned_to = line(LONG_LINE)
    cents = models.DecimalField(
        max_digits=7,
        decimal_places=3,
        null=True,
        blank=True,
        validators=[MinValueValidator(-1200), MaxValueValidator(1200)],
    )
    written = line(LONG_LINE)
    preparation = line(LONG_LINE)
    position = models.PositiveSmallIntegerField(default=0)
    search_text = SearchTextField(of=("instrument", "tuned_to", "written", "preparation", "notes"))

    class Meta:
        constraints = [
            filled("retuning", "instrument"),
            between("retuning", "cents", -1200, 1200),
            models.CheckConstraint(condition=~Q(tuned_to="") | Q(cents__isnull=False), name="retuning_says_how"),
        ]

    def __str__(self) -> str:
        return f"{self.instrument}: {self.tuned_to}" if self.tuned_to else self.instrument

    def clean(self) -> None:
        super().clean()
        if not self.tuned_to and self.cents is None:
            raise ValidationError({"tuned_to": "Say to which notes it is tuned, or by how many cents."})
