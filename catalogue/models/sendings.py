"""Papers that left the house, kept as they were sent."""

from __future__ import annotations

from django.db import models

from catalogue.models.conditions import filled, names_somebody
from catalogue.models.fields import LONG_LINE, SearchTextField, line
from catalogue.models.hires import Hire
from catalogue.models.kept import KeptOfComposer, Somebody
from catalogue.models.performances import Performance
from catalogue.models.works import Work


class Sending(Somebody, KeptOfComposer):
    """A paper that went to somebody, with the very bytes that went; the name, the person or the body is who got it.

    ``document`` is the word of the paper's form, ``asked`` what that form was answered besides the work, the
    performance and the hire, and ``made_on`` the day on which it was made: with these it is made again. The file is
    kept under its ``sha256`` and ``suffix``. ``facts_sha256`` is the SHA-256 of what the paper says, line by line, kept
    as a text under it: another one tells that the record has changed since; empty where it was not kept. A rider that
    is answered item by item is a ``RiderSending``.
    """

    work = models.ForeignKey(Work, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    performance = models.ForeignKey(Performance, on_delete=models.SET_NULL, null=True, blank=True, related_name="+")
    hire = models.ForeignKey(Hire, on_delete=models.SET_NULL, null=True, blank=True, editable=False, related_name="+")
    sent_on = models.DateField()
    document = models.CharField(max_length=40, editable=False)
    title = line(LONG_LINE, blank=False, editable=False)
    asked = models.JSONField(default=dict, editable=False)
    made_on = models.DateField(editable=False)
    file_name = line(LONG_LINE, blank=False, editable=False)
    suffix = models.CharField(max_length=5, editable=False)
    sha256 = models.CharField(max_length=64, editable=False)
    byte_count = models.PositiveBigIntegerField(editable=False)
    facts_sha256 = models.CharField(max_length=64, blank=True, default="", editable=False)
    search_text = SearchTextField(of=("name", "title", "file_name", "notes"))

    class Meta:
        constraints = [
            *names_somebody("sending"),
            filled("sending", "title"),
            models.CheckConstraint(condition=models.Q(byte_count__gte=1), name="sending_is_kept"),
        ]

    since = ""
    """How the record stands to it, in words, once somebody has held it against the record."""

    def __str__(self) -> str:
        return ": ".join(part for part in (self.title, self.billed_name) if part)

    @property
    def recipient(self) -> str:
        """Who got it."""
        return self.billed_name
