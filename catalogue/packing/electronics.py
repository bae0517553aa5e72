"""What the electronics of a work leave in: papers, setup text, and the files that are kept of the setup."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Any

from django.core.files.storage import default_storage

from catalogue.documents.model import Paper
from catalogue.documents.registry import DocumentNeeds, render
from catalogue.exchange.electronics_package import MEDIA, media_member, told_setup
from catalogue.exchange.kept_content import kept
from catalogue.exchange.pictures import stored_name
from catalogue.exchange.stored_files import name_to_take_away, plain_name
from catalogue.exchange.zip_stream import Member
from catalogue.gathering.technical import gather_setups
from catalogue.making import Wish, make_document
from catalogue.models import Composer, StoredFile, Work
from catalogue.rules.technical.files import line_of, plain
from catalogue.rules.technical.terms import Setup
from catalogue.terms import FileKind

PAPERS = (("rider", "pdf"), ("rider", "txt"), ("cue-sheet", "pdf"), ("cue-sheet", "csv"))
FOLDERS = {FileKind.MEDIA: MEDIA, FileKind.RECORDING: MEDIA, FileKind.PROGRAMS: "programs"}
OTHER_FILES = "files"


@dataclass(frozen=True, slots=True)
class Electronics:
    """What a package holds: ``files`` are those that are kept or were found in a folder, under their names in it.

    ``digests`` are the SHA-256 of those that are kept, by these names. ``absent`` are media files that
    the setup names and nobody has brought.
    """

    composer: Composer
    work: Work
    setup: Setup
    files: tuple[Member, ...] = field(default=())
    digests: Mapping[str, str] = field(default_factory=dict)
    absent: tuple[str, ...] = field(default=())

    @property
    def told(self) -> dict[str, Any]:
        """What the manifest says besides the files."""
        return {"composer": self.composer.name, "work": self.work.title, **told_setup(self.setup)}

    def members(self, today: date) -> tuple[Member, ...]:
        """All that goes in, the papers made as of a day."""
        made = papers(self.composer, self.work, today)
        return (*made, Member("setup.txt", setup_text(self.setup)), *self.files)


def chosen_setup(work: Work, asked: str = "") -> tuple[Setup | None, tuple[Setup, ...]]:
    """Return the setup that is asked for by its number, else the first, and all of them; none where there is none."""
    setups = gather_setups(work)
    found = next((one for one in setups if str(one.id) == asked), setups[0] if setups else None)
    return found, setups


def electronics_of(composer: Composer, work: Work, setup: Setup, folder: Path | None = None) -> Electronics:
    """Gather what a package of this setup holds; ``folder`` is asked for media files that are not kept.

    Raises PackageError where the folder lacks one, or holds another than the setup means.
    """
    found = dict(kept_members(setup))
    there = {plain(one.name) for one in found}
    lacking = [one for one in setup.media if plain(one.name) not in there]
    brought = tuple(media_member(one.name, one.sha256, folder) for one in lacking) if folder is not None else ()
    absent = tuple(one.name for one in lacking) if folder is None else ()
    digests = {one.name: sha256 for one, sha256 in found.items()}
    return Electronics(composer, work, setup, (*found, *brought), digests, absent)


def kept_members(setup: Setup) -> Iterator[tuple[Member, str]]:
    """Give the files that are kept of a setup, each with its SHA-256; called as the line that means it has it."""
    taken: set[str] = set()
    for one in StoredFile.objects.filter(setup=setup.id).order_by("kind", "original_name", "pk"):
        try:
            content = kept(default_storage, stored_name(one.sha256, one.suffix))
        except FileNotFoundError:
            continue
        line = line_of(one.original_name, one.sha256, setup.media)
        called = plain_name(line.name) if line else name_to_take_away(one.original_name, one.suffix)
        name = free_name(f"{FOLDERS.get(FileKind(one.kind), OTHER_FILES)}/{called}", taken)
        yield Member(name, content), one.sha256


def free_name(name: str, taken: set[str]) -> str:
    """Return a name that no other has, which is then taken.

    >>> taken = set(); [free_name("media/a.wav", taken) for _each in range(2)]
    ['media/a.wav', 'media/a-2.wav']
    """
    path, number, found = PurePosixPath(name), 2, name
    while found.casefold() in taken:
        found, number = str(path.with_stem(f"{path.stem}-{number}")), number + 1
    taken.add(found.casefold())
    return found


def papers(composer: Composer, work: Work, today: date) -> Iterator[Member]:
    """Give the rider and the cue sheet, as paper and as text; a work without cues has no sheet."""
    for kind, format in PAPERS:
        wish = Wish(kind, composer.language, Paper.A4, today, works=(work.pk,))
        try:
            yield Member(f"{kind}.{format}", render(make_document(composer, wish), format))
        except DocumentNeeds:
            continue


def setup_text(setup: Setup) -> bytes:
    """Tell how it is set up from nothing, and what to do when something fails."""
    return "\n\n".join(paragraphs(setup)).encode() + b"\n"


def paragraphs(setup: Setup) -> Iterable[str]:
    told = (
        (setup.name, setup.description),
        ("Setting up", setup.setting_up),
        ("When something fails", setup.when_it_fails),
    )
    return (f"{head}\n\n{text.strip()}" for head, text in told if text.strip())
