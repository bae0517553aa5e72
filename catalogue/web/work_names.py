"""Works by what people call them: each has a name of its own to pick it by, and is found by its other titles too."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State
from catalogue.models import Composer, Work
from catalogue.rules.phrases import listed
from catalogue.rules.search import fold

MOST_ALIKE = 500
MOST_IN_A_LIST = 200
BRACKETS = re.compile(r"\s*\([^()]*\)\s*$")
TITLES = ("title", "original_title", "transliteration", "translated_title")
COLUMNS = (*TITLES, "catalogue_number", "version_label", "completed", "composer", "title_language")


class UnknownWork(ValueError):
    """A name that is no work's, or several works'."""

    def __init__(self, reason: str, *, is_several: bool = False) -> None:
        super().__init__(reason)
        self.reason, self.is_several = reason, is_several


@dataclass(frozen=True, slots=True)
class WorkNames:
    """The works of a catalogue by key; ``labels`` are all different."""

    works: dict[int, Work]
    labels: dict[int, str]

    @property
    def offered(self) -> tuple[str, ...]:
        """What a list offers to pick from; of many works nothing, they are offered while one types."""
        return tuple(self.labels.values()) if len(self.labels) <= MOST_IN_A_LIST else ()

    def find(self, text: str) -> Work:
        """Return the work that the text names: by its label, a title or its number. Raises UnknownWork."""
        wanted = fold(text)
        found = [key for key, label in self.labels.items() if fold(label) == wanted] or [
            key for key, work in self.works.items() if wanted in names_of(work)
        ]
        if len(found) == 1:
            return self.works[found[0]]
        if not found:
            raise UnknownWork(_("No work of this catalogue is called “%(name)s”.") % {"name": text})
        several = listed([f"“{self.labels[key]}”" for key in found[:4]], "or")
        raise UnknownWork(_("Several works are called so; write %(several)s.") % {"several": several}, is_several=True)

    def knows(self, text: str) -> bool:
        """Say whether the text names a work."""
        try:
            return self.find(text) is not None
        except UnknownWork:
            return False


def work_names(composer: Composer) -> WorkNames:
    """Return the works of a composer in title order; one query."""
    return names_among(Work.objects.filter(composer=composer).in_title_order())


def names_among(works: Any) -> WorkNames:
    found = list(works.only(*COLUMNS))
    return WorkNames({work.pk: work for work in found}, labels_of(found))


def works_called(works: Any, text: str) -> WorkNames:
    """Return those of the works that may be meant by a name, a mark in brackets behind it left out; one query."""
    bare = BRACKETS.sub("", text).strip() or text
    return names_among(works.matching(bare).in_title_order()[:MOST_ALIKE])


def works_near(works: Any, text: str, most: int) -> list[str]:
    """Return the labels of works that hold what is typed, else the longest word of it; those that begin so first."""
    wanted, words = fold(text), sorted(fold(text).split(), key=len)
    for asked in (text, *words[-1:]):
        labels = list(names_among(works.matching(asked).in_title_order()[:MOST_ALIKE]).labels.values()) if asked else []
        if labels:
            return sorted(labels, key=lambda label: not fold(label).startswith(wanted))[:most]
    return []


def label_of(works: Any, key: Any) -> str:
    """Return what tells a work from others of its title; empty where it is not among the works."""
    found = works.filter(pk=int(key)).only("title").first()
    return names_among(works.matching(found.title)[:MOST_ALIKE]).labels.get(found.pk, found.title) if found else ""


def few_of(works: Any) -> Mapping[int, str] | None:
    """Return the labels of works in title order; none where they are too many for a list. One query."""
    found = works.order_by().only(*COLUMNS)[: MOST_IN_A_LIST + 1]
    few = sorted(found, key=lambda work: (work.title.lower(), work.pk))
    return None if len(few) > MOST_IN_A_LIST else labels_of(few)


@once_for_each_state(256)
def few_at(_state: State, composer: Composer, _language: str | None) -> Mapping[int, str] | None:
    """Return the same of all works of a composer; what tells alike ones apart is in the language of the page."""
    return few_of(Work.objects.filter(composer=composer))


def labels_of(works: Iterable[Work]) -> dict[int, str]:
    """Return the title of each work, told apart by version, number or year where others have the same."""
    alike: dict[str, list[Work]] = defaultdict(list)
    for work in works:
        alike[fold(work.title)].append(work)
    return {work.pk: told_apart(work, same) for same in alike.values() for work in same}


def told_apart(work: Work, same: list[Work]) -> str:
    if len(same) == 1:
        return work.title
    for mark in (
        lambda one: one.version_label,
        lambda one: one.catalogue_number,
        lambda one: str(one.completed or ""),
        lambda one: f"{_('no.')} {one.pk}",
    ):
        if mark(work) and Counter(map(mark, same))[mark(work)] == 1:
            return f"{work.title} ({mark(work)})"
    return work.title


def names_of(work: Work) -> set[str]:
    return {fold(getattr(work, name)) for name in (*TITLES, "catalogue_number") if getattr(work, name)}
