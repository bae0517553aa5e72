"""Which documents of the demo's composer are written, and under which names."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from django.utils.text import slugify

from catalogue.documents.model import Paper
from catalogue.making import Wish
from catalogue.models import Composer, Edition, Hire, Rider, Work
from catalogue.terms import Category

COMPOSER = "nevena-haldoreva"
"""The slug of the one of the three whose documents are written."""
YEARS_IN_CV = 5


def wishes(composer: Composer, today: date) -> list[tuple[str, Wish]]:
    """Return the documents of the demo, printed on a day, with the names of their files."""
    usual = Wish("works-list-by-category", composer.language, Paper.A4, today)
    latest = Work.objects.filter(composer=composer, category=Category.ORCHESTRA, status="active").newest_first()[0]
    asked = Rider.objects.filter(composer=composer).earliest("pk")
    scores = Edition.objects.filter(work__composer=composer).exclude(copyright_line="").order_by("pk")
    since = today.replace(year=today.year - YEARS_IN_CV, month=1, day=1)
    return [
        ("works-list-by-category", usual),
        ("works-list-by-year", replace(usual, kind="works-list-by-year")),
        ("parts-checklist", replace(usual, kind="parts-checklist", works=(latest.pk,))),
        ("performance-history", replace(usual, kind="performance-history")),
        ("programme-entry", replace(usual, kind="programme-entry", works=(latest.pk,))),
        ("press-sheet", replace(usual, kind="press-sheet")),
        ("performance-return", replace(usual, kind="performance-return")),
        ("rider", replace(usual, kind="rider", works=(asked.work_id,), performance=asked.performance_id)),
        ("cv-section", replace(usual, kind="cv-section", first=since)),
        *papers_of_hires(composer, usual),
        *((f"front-matter-{slugify(one.work.title)}", front_matter(usual, one)) for one in scores),
    ]


def papers_of_hires(composer: Composer, usual: Wish) -> list[tuple[str, Wish]]:
    """The note of a set that is out, the check of one that is back, the letter about what it lacks, all accounts."""
    hires = Hire.objects.filter(composer=composer).order_by("pk")
    out, back = hires.filter(back_on=None).first(), hires.exclude(back_on=None).first()
    of_one = (("delivery-note", out), ("return-check", back), ("missing-parts-letter", back))
    made = [(kind, replace(usual, kind=kind, hire=hire.pk)) for kind, hire in of_one if hire is not None]
    return [*made, ("hire-statement", replace(usual, kind="hire-statement"))]


def front_matter(usual: Wish, score: Edition) -> Wish:
    """The front of a score on the paper that its edition names, on A3 where it names none of the usual ones."""
    named = score.paper.lower().replace(" ", "")
    paper = Paper(named) if named in set(Paper) else Paper.A3
    return replace(usual, kind="front-matter", works=(score.work_id,), paper=paper)
