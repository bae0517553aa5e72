"""One composer's works while a table is imported: found again by title, version and number, added where new."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from datetime import datetime

from catalogue.actions.works import save_work
from catalogue.models import Composer, Work
from catalogue.rules.search import fold

REMARK_IN_BRACKETS = re.compile(r"\s*\([^()]*\)$")


class WorkShelf:
    """Asks the database once, however many rows there are."""

    def __init__(self, composer: Composer, now: datetime) -> None:
        self.composer = composer
        self.now = now
        self.by_title: dict[str, list[Work]] = defaultdict(list)
        for work in Work.objects.filter(composer=composer).with_everything_printed().order_by("pk"):
            self.by_title[fold(work.title)].append(work)

    def called(self, title: str) -> list[Work]:
        """Return the works and versions of that title."""
        return self.by_title.get(fold(title), [])

    def add(self, work: Work) -> None:
        """Keep a work that has been saved where the next rows find it.

        What a search looks through is as long as all its texts together, and is made anew with the next save.
        """
        work.search_text = ""
        if work not in self.by_title[fold(work.title)]:
            self.by_title[fold(work.title)].append(work)

    def first_version(self, title: str) -> Work | None:
        """Return the work that a programme means by a title, with or without the work's number behind it."""
        roots = [work for work in self.called(title) if work.version_of_id is None]
        if roots:
            return roots[0]
        wanted = fold(title)
        return next((work for work in self.all() if work.version_of_id is None and wanted in spellings(work)), None)

    def all(self) -> Iterable[Work]:
        return (work for works in self.by_title.values() for work in works)

    def versions_of(self, root: Work) -> list[Work]:
        return [root, *(work for work in self.called(root.title) if work.version_of_id == root.pk)]

    def version(self, root: Work, label: str) -> Work:
        """Return the version of that label, made where there is none."""
        if not label:
            return root
        known = same_label(self.versions_of(root), label)
        return known or self.new(root.title, version_of=root, version_label=label, category=root.category)

    def new(self, title: str, **columns: object) -> Work:
        """Save a work of which little more than the title is known."""
        work = save_work(work=Work(composer=self.composer, title=title, **columns), now=self.now)
        self.add(work)
        return work


def spellings(work: Work) -> set[str]:
    number = work.catalogue_number
    return {fold(f"{work.title}{between}{number}") for between in (", ", " ") if number}


def same_label(versions: Iterable[Work], label: str) -> Work | None:
    """Return the version with that label; one may have a remark in brackets that the other lacks."""
    labelled = [work for work in versions if work.version_label]
    exact = [work for work in labelled if fold(work.version_label) == fold(label)]
    if exact:
        return exact[0]
    stem = REMARK_IN_BRACKETS.sub("", fold(label))
    alike = [work for work in labelled if REMARK_IN_BRACKETS.sub("", fold(work.version_label)) == stem]
    is_short = stem == fold(label)
    fitting = [work for work in alike if is_short or stem == fold(work.version_label)]
    return fitting[0] if len(fitting) == 1 else None
