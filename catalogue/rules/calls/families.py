"""Works as they are screened: a version that is only a label goes with its work, a version of its own stands alone."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from catalogue.facts import CatalogueFacts, PerformanceFacts, ProgrammedFacts, TextFacts, WorkFacts
from catalogue.rules.calls.verdicts import Record
from catalogue.rules.calls.words import plain
from catalogue.timing import PartialDate

VERSION_OF = re.compile(
    r"(?<!second )(?<!new )\b(?:versions?|arrangements?|orchestrations?|transcriptions?|fassung|"
    r"bearbeitung|arr\.)\s+(?:of|for|fur|von|pour|per|para)\b"
)
BRACKET = re.compile(r"\s*[(\[].*?[)\]]\s*$")
YEAR = re.compile(r"\(((?:19|20)\d{2})\)")


class Played(NamedTuple):
    """One playing of a work: the event and its place in the programme."""

    event: PerformanceFacts
    item: ProgrammedFacts


@dataclass(frozen=True, slots=True)
class Candidate:
    """A work as it is screened, with its playings; ``earlier`` is the date of the work that it is a version of."""

    work: WorkFacts
    played: tuple[Played, ...] = ()
    is_version: bool = False
    earlier: PartialDate | None = None
    siblings: tuple[WorkFacts, ...] = ()
    recorded: bool = False
    texts: tuple[TextFacts, ...] = ()
    record: Record = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "record", Record("work", self.work.id))


@dataclass(frozen=True, slots=True)
class Kin:
    """The works of a catalogue by the first version that they are of, and by their titles without what is in brackets.

    A work's place in the catalogue stands with it, so that families are told in its order; ``titles`` are those of the
    works by their numbers.
    """

    by_first: dict[int, list[tuple[int, WorkFacts]]]
    by_title: dict[str, list[tuple[int, WorkFacts]]]
    titles: dict[int, str]

    @classmethod
    def of(cls, works: tuple[WorkFacts, ...]) -> Kin:
        by_first: dict[int, list[tuple[int, WorkFacts]]] = defaultdict(list)
        by_title: dict[str, list[tuple[int, WorkFacts]]] = defaultdict(list)
        titles = {work.id: base_title(work) for work in works}
        for place, work in enumerate(works):
            by_first[work.version_of or work.id].append((place, work))
            by_title[titles[work.id]].append((place, work))
        return cls(by_first, by_title, titles)

    def siblings(self, work: WorkFacts) -> tuple[WorkFacts, ...]:
        """Return the other versions of a work, and those that bear its title."""
        versions, alike = self.by_first.get(work.version_of or work.id, ()), self.alike(work)
        if len(versions) < 2 and len(alike) < 2 and all(one.id == work.id for _place, one in (*versions, *alike)):
            return ()
        found = dict(versions) | dict(alike)
        return tuple(found[place] for place in sorted(found) if found[place].id != work.id)

    def alike(self, work: WorkFacts) -> list[tuple[int, WorkFacts]]:
        return self.by_title.get(self.titles.get(work.id, ""), [])


def candidates(catalogue: CatalogueFacts) -> tuple[Candidate, ...]:
    """Return every work to be screened, in the order of the catalogue."""
    works = catalogue.works_by_id()
    labels = {one.id: one.version_of for one in catalogue.works if is_label(one) and one.version_of in works}
    playings: dict[int, list[Played]] = {}
    for event in catalogue.performances:
        for item in event.programme:
            playings.setdefault(labels.get(item.work_id) or item.work_id, []).append(Played(event, item))
    recorded = {one.work_id for one in catalogue.recordings if one.label or one.number}
    texts: dict[int, list[TextFacts]] = {}
    for text in catalogue.texts:
        texts.setdefault(text.work_id, []).append(text)
    kin = Kin.of(catalogue.works)
    return tuple(
        candidate_of(work, works, tuple(playings.get(work.id, ())), kin, recorded, texts)
        for work in catalogue.works
        if work.id not in labels
    )


def is_label(work: WorkFacts) -> bool:
    """Whether a version's record says nothing of its own: no forces, no date, no length."""
    own = work.instrumentation or work.instrumentation_typed or work.completed or work.duration or work.duration_typed
    return work.version_of is not None and not own


def candidate_of(
    work: WorkFacts,
    works: dict[int, WorkFacts],
    played: tuple[Played, ...],
    kin: Kin,
    recorded: set[int],
    texts: Mapping[int, Sequence[TextFacts]],
) -> Candidate:
    parent = works.get(work.version_of) if work.version_of else None
    full = work if parent is None else inheriting(work, parent)
    is_version = parent is not None or says_version(work)
    return Candidate(
        work=full,
        played=played,
        is_version=is_version,
        earlier=earlier_of(work, parent, kin) if is_version else None,
        siblings=kin.siblings(work),
        recorded=work.id in recorded,
        texts=tuple(texts.get(work.id) or texts.get(work.version_of or 0, ())),
    )


def inheriting(work: WorkFacts, parent: WorkFacts) -> WorkFacts:
    """Return a version with what its record leaves to the first version."""
    return replace(
        work,
        instrumentation=work.instrumentation or (None if work.instrumentation_typed else parent.instrumentation),
        instrumentation_typed=work.instrumentation_typed or parent.instrumentation_typed,
        duration=work.duration or (None if work.duration_typed else parent.duration),
        text_language=work.text_language or parent.text_language,
    )


def base_title(work: WorkFacts) -> str:
    title = work.title.title
    return plain(BRACKET.sub("", title) if title.rstrip().endswith((")", "]")) else title).strip()


def said_of(work: WorkFacts) -> list[str]:
    return [plain(one) for one in (work.title.subtitle, work.version_label, work.notes, work.title.title) if one]


def says_version(work: WorkFacts) -> bool:
    return any(VERSION_OF.search(said) for said in said_of(work) if " " in said)


def earlier_of(work: WorkFacts, parent: WorkFacts | None, kin: Kin) -> PartialDate | None:
    """Return the date of the work that this is a version of, where the records say it."""
    if parent is not None:
        return parent.completed
    named = next((match for said in said_of(work) if VERSION_OF.search(said) and (match := YEAR.search(said))), None)
    if named:
        return PartialDate(int(named[1]))
    dates = [one.completed for _place, one in kin.alike(work) if one.id != work.id and one.completed]
    return min(dates) if dates else None
