"""The kind of records that are files: scores, parts, recordings, what electronics are played from."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.models import StoredFile
from catalogue.web.forms.works import Group
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.records.of_works import KEPT, NOTES, WORK

FILES = Kind(
    slug="files",
    model=StoredFile,
    one=_("File"),
    many=_("Files"),
    add=_("Add a file"),
    says=_("Scores, parts, recordings and what electronics are played from, kept as they came and in every backup."),
    main=(
        Group(_("The file"), ("file", "kind", "version")),
        Group(_("What it belongs to"), ("work", "edition", "recording", "setup")),
    ),
    more=(Group(_("Its name"), ("name",)), KEPT),
    fields={
        "file": Said(
            _("File"),
            _(
                "PDF up to 100 MB, MusicXML up to 20 MB, MIDI, ZIP, sound or video up to 400 MB. What it is, is told "
                "by what is in it."
            ),
        ),
        "kind": Said(_("What it is for")),
        "version": Said(_("State"), _("Such as: 2, or proofs of May.")),
        "work": WORK,
        "edition": Said(_("Edition")),
        "recording": Said(_("Recording")),
        "setup": Said(_("Technical setup"), _("For sounds and programs that electronics are played from.")),
        "name": Said(_("Called"), _("Leave empty to keep the name that the file came with.")),
        "byte_count": Said(_("Size")),
        "notes": NOTES,
    },
    columns=("__str__", "kind", "version", "work", "byte_count"),
    order=("kind", "original_name", "pk"),
    along=("edition", "recording", "setup"),
    again=("kind", "version", "edition", "recording", "setup"),
    looks={"byte_count": "num end"},
)
