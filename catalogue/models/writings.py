"""Words about music and people: programme notes, biographies, performance notes."""

from __future__ import annotations

from django.core.validators import MinValueValidator
from django.db import models

from catalogue.models.conditions import between, choices_of, filled, known
from catalogue.models.fields import TEXT, PartialDateField, SearchTextField, line, refuse_unprintable
from catalogue.models.kept import KeptOfComposer, KeptOfWork
from catalogue.models.people import Person
from catalogue.rules.texts import count_words
from catalogue.terms import NoteLength, NotePurpose


class Writing(models.Model):
    """A text for programmes: how long it is meant to be, in which language, and of what day it is true.

    ``language`` is a BCP 47 tag; ``most_words`` is a limit where somebody has set one.
    """

    body = models.TextField(max_length=TEXT, validators=[refuse_unprintable])
    length = models.CharField(max_length=20, choices=choices_of(NoteLength), default=NoteLength.MEDIUM.value)
    language = line(35)
    as_of = PartialDateField()
    author = line()
    most_words = models.PositiveIntegerField(null=True, blank=True, validators=[MinValueValidator(1)])

    class Meta:
        abstract = True

    @property
    def words(self) -> int:
        return count_words(self.body)


class ProgrammeNote(Writing, KeptOfWork):
    """A text about a work, beside the one that the work itself holds."""

    heading = line()
    search_text = SearchTextField(of=("heading", "body", "author", "notes"))

    class Meta:
        constraints = [
            known("programme_note", "length", NoteLength),
            filled("programme_note", "body"),
            between("programme_note", "most_words", 1, 100_000),
        ]

    def __str__(self) -> str:
        return self.heading or first_words(self.body)


class Biography(Writing, KeptOfComposer):
    """A text about the composer, or about ``person``, beside the two that the composer's profile holds."""

    person = models.ForeignKey(Person, on_delete=models.RESTRICT, null=True, blank=True, related_name="+")
    search_text = SearchTextField(of=("body", "author", "notes"))

    class Meta:
        verbose_name_plural = "biographies"
        constraints = [
            known("biography", "length", NoteLength),
            filled("biography", "body"),
            between("biography", "most_words", 1, 100_000),
        ]

    def __str__(self) -> str:
        return first_words(self.body)


class PerformanceNote(KeptOfWork):
    """What is told in front of the music; ``concerns`` says whom, ``first_at`` where it first matters.

    ``purpose`` is whether it is for playing, for the sound operator, or for practising.
    """

    heading = line()
    body = models.TextField(max_length=TEXT, validators=[refuse_unprintable])
    purpose = models.CharField(max_length=30, choices=choices_of(NotePurpose), default=NotePurpose.PLAYING.value)
    concerns = line()
    language = line(35)
    first_at = line()
    position = models.PositiveSmallIntegerField(default=0)
    search_text = SearchTextField(of=("heading", "body", "concerns", "notes"))

    class Meta:
        constraints = [known("performance_note", "purpose", NotePurpose), filled("performance_note", "body")]

    def __str__(self) -> str:
        return self.heading or first_words(self.body)


def first_words(text: str, most: int = 60) -> str:
    """Return the beginning of a text, cut between words.

    >>> first_words("The tide comes in over the flats twice a day.", 20)
    'The tide comes in…'
    """
    flat = " ".join(text.split())
    return flat if len(flat) <= most else f"{flat[:most].rsplit(' ', 1)[0].rstrip(',;:. ')}…"
