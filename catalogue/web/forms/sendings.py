"""The form of a paper that is sent: to whom, when, for which performance, and as what kind of file."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from catalogue.models import Sending
from catalogue.web.forms.document_base import formats_of
from catalogue.web.forms.documents import FORMS
from catalogue.web.forms.records import RecordForm
from catalogue.web.records.kinds import Kind
from catalogue.web.records.registry import KINDS

KIND = KINDS["papers-sent"]


class SendingForm(RecordForm):
    """The form of a paper sent. What it is made of does not change: a paper of a performance stays one of it."""

    kind: ClassVar[Kind] = KIND

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        paper = FORMS.get(self.instance.document)
        if paper is not None and "performance" in paper.field_order:
            del self.fields["performance"]


class NewSendingForm(SendingForm):
    """A paper that is about to be sent; ``keep_file`` makes it in the format that is chosen and keeps it."""

    format = forms.ChoiceField(label=_("Format"))

    def __init__(self, *args: Any, kind_of_paper: str, format: str, **options: Any) -> None:
        super().__init__(*args, **options)
        self.fields["format"] = forms.ChoiceField(label=self.fields["format"].label, choices=formats_of(kind_of_paper))
        self.initial["format"] = format

    def keep_with(self, keep_file: Callable[[Sending, str], None], now: datetime) -> None:
        """Keep the file first: what breaks off in between leaves a file that no record names, never the contrary."""
        keep_file(self.instance, self.cleaned_data["format"])
        self.keep(now)
