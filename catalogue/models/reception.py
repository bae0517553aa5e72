"""What others said and gave: reviews and awards."""

from __future__ import annotations

from django.db import models

from catalogue.models.conditions import filled
from catalogue.models.fields import IDENTIFIER, LONG_LINE, PartialDateField, SearchTextField, line, text
from catalogue.models.kept import KeptOfComposer
from catalogue.models.people import Organisation
from catalogue.models.performances import Performance
from catalogue.models.recordings import Recording
from catalogue.models.works import Work


class Review(KeptOfComposer):
    """What a critic wrote, of a work, a performance or a recording; ``quotation`` is what may be quoted of it."""

    publication = line(blank=False)
    author = line()
    date = PartialDateField()
    headline = line(LONG_LINE)
    quotation = text()
    language = line(35)
    address = models.URLField(max_length=500, blank=True, default="")
    doi = line(IDENTIFIER)
    work = models.ForeignKey(Work, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    performance = models.ForeignKey(Performance, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    recording = models.ForeignKey(Recording, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    search_text = SearchTextField(of=("publication", "author", "headline", "quotation", "notes"))

    class Meta:
        constraints = [filled("review", "publication")]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.author, self.publication) if part)


class Award(KeptOfComposer):
    """A prize, a fellowship or a selection, for a work or for the composer; ``result`` is such as second prize."""

    name = line(LONG_LINE, blank=False)
    result = line()
    date = PartialDateField()
    body = models.ForeignKey(Organisation, on_delete=models.RESTRICT, null=True, blank=True, related_name="+")
    body_name = line()
    place = line()
    amount = line(50)
    address = models.URLField(max_length=500, blank=True, default="")
    work = models.ForeignKey(Work, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    search_text = SearchTextField(of=("name", "result", "body_name", "place", "notes"))

    class Meta:
        constraints = [filled("award", "name")]

    def __str__(self) -> str:
        return ", ".join(part for part in (self.name, self.result) if part)

    @property
    def given_by(self) -> str:
        return self.body_name or (self.body.name if self.body else "")
