"""A pack made: every file of its plan, held against the sizes and the anonymity that the call asks for."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from tempfile import SpooledTemporaryFile
from typing import BinaryIO, cast

from catalogue.documents.needs import DocumentNeeds
from catalogue.exchange.electronics_package import digest_of
from catalogue.exchange.media_files import MediaError
from catalogue.exchange.pack_texts import Finding, Pack, findings_in
from catalogue.exchange.score_covers import CoverError
from catalogue.exchange.zip_stream import Member
from catalogue.packing.lines import Line
from catalogue.packing.plan import Plan, named_piece
from catalogue.rules.anonymity import Sought
from catalogue.rules.calls.packs import Breach, Part, breaches

HELD = 8_000_000
"""Bytes of a file that are held while it is searched; a longer one is written to the disk."""


@dataclass(frozen=True, slots=True)
class MadeFile:
    """A file of the pack with its content, or where that is."""

    line: Line
    member: Member
    size: int

    @property
    def part(self) -> Part:
        draft = self.line.draft
        return replace(draft.part, size=self.size, suffix=draft.suffix) if draft else Part(self.line.piece)

    @property
    def sha256(self) -> str:
        return digest_of(self.member.parts())


@dataclass(frozen=True, slots=True)
class MadePack:
    """A pack with all its files: what could not be made, what breaks a rule, and what gives the composer away."""

    plan: Plan
    files: tuple[MadeFile, ...]
    broken: tuple[Breach, ...]
    findings: tuple[Finding, ...] = ()
    not_seen: tuple[str, ...] = ()

    @property
    def size(self) -> int:
        return sum(one.size for one in self.files)

    @property
    def members(self) -> tuple[Member, ...]:
        return tuple(one.member for one in self.files)

    @property
    def names_the_composer(self) -> bool:
        return bool(self.findings)


def nothing() -> None:
    """Tell nobody how far it is."""


def make_pack(plan: Plan, sought: tuple[Sought, ...] = (), step: Callable[[], None] = nothing) -> MadePack:
    """Make every file of a plan; where the call is anonymous search them for what is ``sought``.

    ``step`` is called after each file, so that somebody who waits can be told how far it is.
    """
    files: list[MadeFile] = []
    broken: list[Breach] = []
    for line in plan.files:
        try:
            files.append(made(line))
        except (DocumentNeeds, CoverError, MediaError) as needs:
            broken.append(Breach(f"The {named_piece(line)} cannot be made: {needs.reason}"))
        except OSError:
            broken.append(Breach(f"{named_piece(line)}: its file is gone."))
        step()
    parts = tuple(one.part for one in files)
    rules = (*plan.broken, *(one for one in breaches(plan.submission.call, parts) if one not in plan.broken), *broken)
    if not plan.submission.call.anonymous:
        return MadePack(plan, tuple(files), rules)
    pack = Pack()
    found = tuple(dict.fromkeys(given_away(files, pack, sought)))
    return MadePack(plan, tuple(files), rules, found, tuple(pack.not_seen))


def made(line: Line) -> MadeFile:
    member = Member(line.file, line.draft.content() if line.draft else b"")
    return MadeFile(line, member, member.size)


def given_away(files: list[MadeFile], pack: Pack, sought: tuple[Sought, ...]) -> Iterator[Finding]:
    """Search each file as it will leave the house; a long one lies on the disk meanwhile."""
    for one in files:
        with SpooledTemporaryFile(HELD) as file:
            for part in one.member.parts():
                file.write(part)  # many lines at once would all be held before the first goes to the disk
            yield from findings_in(pack, one.member.name, cast(BinaryIO, file), sought)
