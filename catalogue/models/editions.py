"""Editions of a work, and the texts it sets with the right to set them."""

from __future__ import annotations

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from catalogue.models.conditions import between, choices_of, known, known_or_empty
from catalogue.models.fields import IDENTIFIER, LONG_LINE, PartialDateField, SearchTextField, line, text
from catalogue.models.kept import KeptOfWork
from catalogue.models.people import Organisation
from catalogue.terms import AccidentalRule, Clearance, EditionKind, ScorePitch


class Edition(KeptOfWork):
    """A score or a set of parts as it can be had. ``publisher_name`` is the publisher as printed.

    ``printing`` says which printing it is, ``copyright_line`` whose it is, both in the words that are printed.
    ``replaces`` is the edition before it; ``errata`` are the mistakes known in this one, one a line, as of
    ``errata_on``.
    """

    kind = models.CharField(max_length=20, choices=choices_of(EditionKind), default=EditionKind.FULL_SCORE.value)
    pitch = models.CharField(max_length=20, choices=choices_of(ScorePitch), blank=True, default="")
    accidentals = models.CharField(max_length=20, choices=choices_of(AccidentalRule), blank=True, default="")
    publisher = models.ForeignKey(Organisation, on_delete=models.RESTRICT, null=True, blank=True, related_name="+")
    publisher_name = line()
    number = line(50)
    ismn = line(IDENTIFIER)
    published = PartialDateField()
    pages = models.PositiveSmallIntegerField(null=True, blank=True, validators=[MinValueValidator(1)])
    paper = line()
    binding = line()
    stave_height = models.DecimalField(
        max_digits=4,
        decimal_places=2,
        null=True,
        blank=True,
        validators=[MinValueValidator(1), MaxValueValidator(30)],
    )
    on_hire = models.BooleanField(default=False)
    version = line(50)
    replaces = models.ForeignKey("self", on_delete=models.SET_NULL, null=True, blank=True, related_name="replaced_by")
    errata = text()
    errata_on = PartialDateField()
    printing = line(LONG_LINE)
    copyright_line = line(LONG_LINE)
    search_text = SearchTextField(of=("publisher_name", "number", "ismn", "version", "errata", "notes"))

    class Meta:
        constraints = [
            known("edition", "kind", EditionKind),
            known_or_empty("edition", "pitch", ScorePitch),
            known_or_empty("edition", "accidentals", AccidentalRule),
            between("edition", "pages", 1, 32_767),
            between("edition", "stave_height", 1, 30),
        ]

    def __str__(self) -> str:
        told = (self.get_kind_display(), self.published_by, self.number, self.version)
        return ", ".join(part for part in told if part)

    def clean(self) -> None:
        super().clean()
        if self.replaces is not None and self.replaces.work_id != self.work_id:
            raise ValidationError({"replaces": "This edition is of another work."})
        if self.replaces is not None and self.replaces_id == self.pk:
            raise ValidationError({"replaces": "An edition cannot replace itself."})

    @property
    def published_by(self) -> str:
        return self.publisher_name or (self.publisher.name if self.publisher else "")

    @property
    def publisher_address(self) -> str:
        return self.publisher.address if self.publisher else ""

    @property
    def publisher_email(self) -> str:
        return self.publisher.email if self.publisher else ""

    @property
    def publisher_website(self) -> str:
        return self.publisher.website if self.publisher else ""


class TextSource(KeptOfWork):
    """A text that a work sets, where it was found, and whether it may be set, printed and sung.

    ``credit`` is the line that the holder of the rights wants printed; ``expires`` is the last day of the permission.
    A ``translation`` has a right of its own: ``translation_clearance`` is whether it may be printed.
    """

    author = line()
    title = line(LONG_LINE)
    source = line(LONG_LINE)
    language = line(35)
    translator = line()
    clearance = models.CharField(max_length=20, choices=choices_of(Clearance), default=Clearance.NOT_ASKED.value)
    rights_holder = line()
    contact = line(LONG_LINE)
    asked = PartialDateField()
    granted = PartialDateField()
    expires = PartialDateField()
    credit = line(LONG_LINE)
    covers = line(LONG_LINE)
    isbn = line(IDENTIFIER)
    body = text()
    translation = text()
    translation_language = line(35)
    translation_clearance = models.CharField(
        max_length=20, choices=choices_of(Clearance), default=Clearance.NOT_ASKED.value
    )
    search_text = SearchTextField(
        of=("author", "title", "source", "translator", "rights_holder", "credit", "body", "translation", "notes")
    )

    class Meta:
        constraints = [
            known("text_source", "clearance", Clearance),
            known("text_source", "translation_clearance", Clearance),
            models.CheckConstraint(condition=~Q(author="") | ~Q(title=""), name="text_source_names_something"),
        ]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.author, self.title) if part)

    def clean(self) -> None:
        super().clean()
        if not self.author and not self.title:
            raise ValidationError({"author": "Name the author or the title of the text."})
