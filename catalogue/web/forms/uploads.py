"""The forms of records that come as a file, and which form each kind of record has."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import cache, partial
from typing import Any, ClassVar, cast

from django import forms
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _

from catalogue.exchange.file_formats import ACCEPTED, HEAD, FileFormat, FormatError, refuse_other
from catalogue.exchange.pictures import PictureError, ProbedPicture, keep_picture, probe_picture
from catalogue.exchange.stored_files import keep_upload, plain_name
from catalogue.exchange.upload_reading import Found, read_upload
from catalogue.gathering.files import kept_values
from catalogue.models import Hire, Picture, Sending, StoredFile, Venue
from catalogue.models.stored_files import PARTS_OF_WORKS
from catalogue.terms import FileKind
from catalogue.web.forms.columns import field_for
from catalogue.web.forms.halls import HallForm
from catalogue.web.forms.hires import HireForm
from catalogue.web.forms.records import RecordForm
from catalogue.web.forms.sendings import SendingForm
from catalogue.web.records.kinds import BESIDES, Kind
from catalogue.web.records.registry import FILES_OF_MATERIAL, KINDS
from catalogue.web.uploads import is_too_large, most_taken


@dataclass(frozen=True, slots=True)
class LookedAt:
    """A file that was sent, and what it is by its content."""

    sent: UploadedFile
    format: FileFormat
    found: Found


class UploadForm(RecordForm):
    """A form that takes the file of its record; ``request`` knows whether the file was too large to be taken in."""

    def __init__(self, *args: Any, request: Any = None, **options: Any) -> None:
        super().__init__(*args, **options)
        self.request = request

    def keep(self, now: datetime) -> None:
        self.keep_files()
        super().keep(now)

    def keep_files(self) -> None:
        """Put what was sent in the data folder, and its measures in the record."""

    def refuse_too_large(self, reason: str) -> None:
        if self.request is not None and is_too_large(self.request, "file"):
            raise forms.ValidationError(reason % {"most": most_taken(self.request)})


def file_field(kind: Kind, accepted: str) -> forms.FileField:
    said = kind.fields["file"]
    widget = forms.ClearableFileInput(attrs={"accept": accepted})
    return forms.FileField(label=cast(str, said.label), help_text=cast(str, said.hint), required=False, widget=widget)


class PictureForm(UploadForm):
    """A picture comes as a file, which is looked at and written anew before anything is stored."""

    kind: ClassVar[Kind] = KINDS["pictures"]
    file = file_field(kind, ".png,.jpg,.jpeg,.webp")

    def clean_file(self) -> ProbedPicture | None:
        sent = self.cleaned_data["file"]
        self.refuse_too_large(_("The picture is larger than %(most)s MB; make it smaller first."))
        if sent is None:
            if not self.instance.pk:
                raise forms.ValidationError(_("Choose a file."))
            return None
        try:
            return probe_picture(sent.read())
        except PictureError as mistake:
            raise forms.ValidationError(mistake.reason) from mistake

    def keep_files(self) -> None:
        probed: ProbedPicture | None = self.cleaned_data["file"]
        if probed is None:
            return
        picture: Picture = self.instance
        picture.sha256, picture.suffix = keep_picture(probed, default_storage), probed.suffix
        picture.width, picture.height, picture.byte_count = probed.width, probed.height, len(probed.content)


class FileForm(UploadForm):
    """A file is looked at, and kept as it came; it cannot be put in the place of another one."""

    kind: ClassVar[Kind] = KINDS["files"]
    file = file_field(kind, ACCEPTED)

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        if self.instance.pk:
            del self.fields["file"]
        if getattr(self.request, "is_librarian", False):
            self.ask_for_material()

    def ask_for_material(self) -> None:
        """Take scores and parts alone, as a librarian keeps them."""
        sorts: Any = self.fields["kind"]
        sorts.choices = [(value, label) for value, label in sorts.choices if value in FILES_OF_MATERIAL]
        del self.fields["recording"], self.fields["setup"]

    def clean_file(self) -> LookedAt:
        self.refuse_too_large(_("This file is larger than %(most)s MB, the most for one of its kind."))
        sent = self.cleaned_data["file"]
        if sent is None:
            raise forms.ValidationError(_("Choose a file."))
        try:
            format = refuse_other(head_of(sent), sent.name)
            return LookedAt(sent, format, read_upload(sent, format))
        except FormatError as mistake:
            raise forms.ValidationError(mistake.reason) from mistake

    def clean(self) -> dict[str, Any]:
        """Let a file of an edition, a recording or a setup belong to the work of that, where none is chosen.

        What sounds is no score, which the form begins with: it is a recording, or of a setup what that plays.
        """
        cleaned = super().clean()
        looked: LookedAt | None = cleaned.get("file")
        sounds_as_score = looked is not None and looked.format.sounds and cleaned.get("kind") in FILES_OF_MATERIAL
        if sounds_as_score and "recording" in self.fields:
            cleaned["kind"] = (FileKind.MEDIA if cleaned.get("setup") else FileKind.RECORDING).value
        parts = [cleaned[column] for column in PARTS_OF_WORKS if cleaned.get(column) is not None]
        if cleaned.get("work") is None and parts and "work" not in self.errors:
            cleaned["work"] = parts[0].work
        return cleaned

    def keep_files(self) -> None:
        looked: LookedAt | None = self.cleaned_data.get("file")
        if looked is None:
            return
        stored: StoredFile = self.instance
        stored.suffix, stored.byte_count = looked.format.suffix, looked.sent.size or 0
        stored.found = kept_values(looked.found)
        stored.original_name = plain_name(looked.sent.name or "")
        stored.sha256 = keep_upload(looked.sent, looked.format.suffix, default_storage)


def head_of(sent: UploadedFile) -> bytes:
    sent.seek(0)
    head: bytes = sent.read(HEAD)
    sent.seek(0)
    return head


FORMS: dict[type[Any], type[RecordForm]] = {
    Picture: PictureForm, StoredFile: FileForm, Venue: HallForm, Hire: HireForm, Sending: SendingForm,
}  # fmt: skip


@cache
def form_for(slug: str) -> type[RecordForm]:
    """Return the form of a kind, made once."""
    kind = KINDS[slug]
    return made_of(kind, FORMS.get(kind.model, RecordForm))


def made_of(kind: Kind, form: type[RecordForm]) -> type[RecordForm]:
    """Return a form with the fields of a kind."""
    columns = [name for name in kind.names if name not in BESIDES]
    made = forms.modelform_factory(
        kind.model,
        form=form,
        fields=["work", *columns] if kind.is_of_work else columns,
        formfield_callback=partial(field_for, kind),
    )
    made.kind = kind  # type: ignore[attr-defined]
    return cast("type[RecordForm]", made)
