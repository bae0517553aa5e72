"""What the page of outcomes shows: every submission that has left the house, and where each work has been."""

from __future__ import annotations

from dataclasses import dataclass

from django.urls import reverse
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from catalogue.models import Composer, Submission
from catalogue.terms import SubmissionStatus
from catalogue.web.wording import day_text

WORDS: dict[str, Promise] = {
    SubmissionStatus.DRAFT.value: _("draft"),
    SubmissionStatus.SENT.value: _("sent"),
    SubmissionStatus.CHOSEN.value: _("chosen"),
    SubmissionStatus.NOT_CHOSEN.value: _("not chosen"),
    SubmissionStatus.WITHDRAWN.value: _("withdrawn"),
}


@dataclass(frozen=True, slots=True)
class Outcome:
    """A submission. Texts are ready to print; ``status`` is the word that code knows, ``word`` the one to print."""

    title: str
    address: str
    sent: str
    decided: str
    status: str
    word: Promise
    outcome: str
    feedback: str
    works: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class OutcomePage:
    """``counts`` are how many came to what; ``works`` where each work has been, those sent most often first."""

    outcomes: tuple[Outcome, ...]
    counts: tuple[tuple[int, Promise], ...]
    works: tuple[tuple[str, tuple[Outcome, ...]], ...]


def outcome_page(composer: Composer, *, language: str) -> OutcomePage:
    """Return what became of each submission, the latest first; two queries."""
    ours = Submission.objects.filter(call__composer=composer, call__deleted_at__isnull=True)
    gone = ours.exclude(status=SubmissionStatus.DRAFT.value).select_related("call").order_by("-sent_on", "-pk")
    outcomes = tuple(outcome_of(one, composer.slug, language) for one in gone.prefetch_related("works__work"))
    statuses = [one.status for one in outcomes]
    titles = dict.fromkeys(title for one in outcomes for title in one.works)
    works = [(title, tuple(one for one in outcomes if title in one.works)) for title in titles]
    return OutcomePage(
        outcomes,
        tuple((statuses.count(status), word) for status, word in WORDS.items() if status in statuses),
        tuple(sorted(works, key=lambda pair: -len(pair[1]))),
    )


def outcome_of(submission: Submission, slug: str, language: str) -> Outcome:
    rows = sorted(submission.works.all(), key=lambda row: row.order)
    return Outcome(
        title=submission.call.title,
        address=reverse("call-pack", args=[slug, submission.call_id]),
        sent=day_text(submission.sent_on, language),
        decided=day_text(submission.decided_on, language),
        status=submission.status,
        word=WORDS[submission.status],
        outcome=submission.outcome,
        feedback=submission.feedback,
        works=tuple(row.work.title for row in rows),
    )
