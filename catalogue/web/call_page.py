"""What the page of a call shows: its conditions in words, and every work with its answer and why."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, time

from django.urls import reverse
from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from catalogue.facts import CatalogueFacts, WorkFacts
from catalogue.models import Call
from catalogue.rules.calls.figures_of_works import DateRule, clock, wanted
from catalogue.rules.calls.packs import in_megabytes
from catalogue.rules.calls.screening import Screened, Screening, screen
from catalogue.rules.calls.sung_texts import language_name
from catalogue.rules.calls.terms import Call as Terms
from catalogue.rules.calls.terms import CallKind, Electronics, Players, Portal
from catalogue.rules.calls.verdicts import Judged, Verdict
from catalogue.rules.phrases import listed
from catalogue.timing import PartialDate, write_clock_time, write_date
from catalogue.web.days import how_far, long_day, reader_has_a_clock

ORDER = {Verdict.YES: 0, Verdict.CANNOT_TELL: 1, Verdict.NO: 2}
ANSWERS: dict[Verdict, Promise] = {
    Verdict.YES: gettext_lazy("Yes"),
    Verdict.CANNOT_TELL: gettext_lazy("Cannot tell"),
    Verdict.NO: gettext_lazy("No"),
}


@dataclass(frozen=True, slots=True)
class Reason:
    """One condition that decides, and the address of the record it rests on."""

    text: str
    mend: str
    address: str


@dataclass(frozen=True, slots=True)
class Answer:
    """One work in the table."""

    work: WorkFacts
    verdict: str
    word: Promise
    reasons: tuple[Reason, ...]
    chosen: int


@dataclass(frozen=True, slots=True)
class CallPage:
    """Texts are ready to print; ``hidden`` counts the works that are not shown."""

    closes: str
    closes_here: str
    far: str
    is_over: bool
    pairs: tuple[tuple[str, str], ...]
    composer: tuple[Judged, ...]
    counts: tuple[tuple[int, Promise], ...]
    answers: tuple[Answer, ...]
    hidden: int
    chosen: tuple[Answer, ...]
    total: int
    contradictions: tuple[str, ...]


def call_page(
    call: Call, catalogue: CatalogueFacts, chosen: tuple[int, ...], *, everything: bool, now: datetime, language: str
) -> CallPage:
    terms, today = call.asks, timezone.localdate(now)
    found = screen(terms, catalogue)
    shown = [one for one in in_order(found) if everything or is_worth_a_look(one, chosen)]
    works = catalogue.works_by_id()
    taken = {one.work.id: answer_of(one, call, chosen, language) for one in found.works if one.work.id in chosen}
    return CallPage(
        closes=closes_text(terms, language),
        closes_here=here_text(terms, language),
        far=how_far(PartialDate.of(terms.closes), today) if terms.closes else "",
        is_over=not still_open(terms, now=now, today=today),
        pairs=tuple((name, in_words(text, language)) for name, text in pairs(terms)),
        composer=tuple(one._replace(reason=in_words(one.reason, language)) for one in found.composer),
        counts=tuple((len(found.of(verdict)), word) for verdict, word in ANSWERS.items()),
        answers=tuple(answer_of(one, call, chosen, language) for one in shown),
        hidden=len(found.works) - len(shown),
        chosen=tuple(taken[pk] for pk in chosen if pk in taken),
        total=sum(one.duration.seconds for pk in chosen if (one := works.get(pk)) and one.duration),
        contradictions=(*doubts(terms, language), *questions(terms)),
    )


def is_worth_a_look(one: Screened, chosen: tuple[int, ...]) -> bool:
    """Whether a work answers or may do, comes near, or is chosen."""
    return one.verdict is not Verdict.NO or one.is_near_miss or one.work.id in chosen


def doubts(terms: Terms, language: str) -> tuple[str, ...]:
    """Return what the call's text leaves open, with its days as the reader writes them."""
    return tuple(in_words(one, language) for one in terms.contradictions)


def questions(terms: Terms) -> Iterator[str]:
    """Yield what has to be asked of the organiser."""
    if terms.deadline is None and terms.deadline_hour:
        yield _(
            "It closes at %(hour)s, but the call does not say by whose clock: it names neither a clock nor a place "
            "that is known. Ask the organiser, and enter the clock."
        ) % {"hour": terms.deadline_hour}
    if terms.kind in FOR_PLAYERS and is_without_players(terms):
        yield _(
            "No players are entered for this call, so every work passes that condition. If it is for certain players, "
            "enter them."
        )


FOR_PLAYERS = (CallKind.CALL, CallKind.COMPETITION, CallKind.READING)


def is_without_players(terms: Terms) -> bool:
    """Whether nothing is known of the forces: neither players nor how many, nor that electronics alone are asked."""
    forces = terms.forces
    bare = not forces.texts and forces.players_min is None and forces.players_max is None
    return bare and terms.electronics is not Electronics.REQUIRED


def still_open(terms: Terms, *, now: datetime, today: date) -> bool:
    """Whether a call can be answered: until its moment by the organiser's clock, else until the end of its day."""
    if terms.deadline is not None:
        return terms.deadline > now
    return terms.closes is None or terms.closes >= today


def in_order(found: Screening) -> list[Screened]:
    """Return the works that answer first, then what cannot be told, near misses, and the rest."""
    return sorted(found.works, key=lambda one: (ORDER[one.verdict], not one.is_near_miss))


def answer_of(one: Screened, call: Call, chosen: tuple[int, ...], language: str) -> Answer:
    told = {judged.reason: judged for judged in reversed(one.deciding)}
    reasons = tuple(reason_of(judged, call, language) for judged in reversed(told.values()))
    place = chosen.index(one.work.id) + 1 if one.work.id in chosen else 0
    return Answer(one.work, str(one.verdict), ANSWERS[one.verdict], reasons, place)


def reason_of(judged: Judged, call: Call, language: str) -> Reason:
    slug = call.composer.slug
    addresses = {"work": "work-detail", "performance": "performance-detail"}
    name = addresses.get(judged.record.kind)
    address = reverse(name, args=[slug, judged.record.id]) if name and judged.record.id else ""
    return Reason(in_words(judged.reason, language), judged.mend, address)


ISO_DAY = re.compile(r"(?<!\d)\d{4}-\d{2}-\d{2}(?!\d)")


def in_words(text: str, language: str) -> str:
    """Return a sentence with its days as the reader writes them.

    >>> in_words("2010-01-01 or later", "en-GB").replace(chr(160), " ")
    '1 January 2010 or later'
    """
    return ISO_DAY.sub(lambda match: write_date(PartialDate.of(date.fromisoformat(match[0])), language), text)


def closes_text(terms: Terms, language: str) -> str:
    """Return the deadline on the organiser's clock; midnight is told as the end of the day before."""
    if terms.deadline is None:
        hour = f", {terms.deadline_hour}" if terms.deadline_hour else ""
        return day_text(terms.closes, language) + hour if terms.closes else ""
    at, day = terms.deadline, terms.deadline.date()
    zone = terms.deadline_zone or f"UTC{at:%z}"
    if at.timetz().replace(tzinfo=None) == time(0):
        day, clock = date.fromordinal(day.toordinal() - 1), _("midnight at its end")
    else:
        clock = write_clock_time(at.time(), language)
    return f"{day_text(day, language)}, {clock} ({zone})"


def day_text(day: date, language: str) -> str:
    return long_day(PartialDate.of(day), language)


def here_text(terms: Terms, language: str) -> str:
    """Return the same moment by the reader's clock, nothing where that is the same or is not known."""
    if terms.deadline is None or not reader_has_a_clock():
        return ""
    here = terms.deadline.astimezone(timezone.get_current_timezone())
    same = here.utcoffset() == terms.deadline.utcoffset()
    return "" if same else f"{day_text(here.date(), language)}, {write_clock_time(here.time(), language)}"


def pairs(terms: Terms) -> Iterator[tuple[str, str]]:
    """Yield the conditions in words, those that the call names."""
    yield from (
        (name, text)
        for name, text in ((_("Players"), forces_text(terms)), (_("Electronics"), electronics_text(terms)))
        if text
    )
    length = wanted(
        terms.duration_min, terms.duration_max, strict=terms.duration_strict, tolerance=terms.duration_tolerance
    )
    total = wanted(terms.total_min, terms.total_max)
    found = (
        (_("Duration"), "; ".join(one for one in (length, _("together %s") % total if total else "") if one)),
        (_("Written"), str(DateRule(terms.composed_from, terms.composed_until))),
        (_("Works"), number_text(terms)),
        (_("Novelty"), novelty_text(terms)),
        (_("Words"), words_text(terms)),
        (_("Composer"), "; ".join(one.text.rstrip(".") for one in (terms.age, terms.residence) if one and one.text)),
        (_("Name"), _("must not appear") if terms.anonymous else ""),
        (_("Recording"), str(terms.recording or "") + (_(", live") if terms.recording_live else "")),
        (_("Fee"), terms.fee),
        (_("Results"), str(terms.results_on or "")),
        (_("To send"), ", ".join(terms.documents)),
        (_("Files"), files_text(terms.portal)),
        (_("Together"), "; ".join(dict.fromkeys(rule.text.rstrip(".") for rule in terms.set_rules))),
    )
    yield from ((name, text) for name, text in found if text)


def forces_text(terms: Terms) -> str:
    forces = terms.forces
    parts = [f"{forces.rule} {forces.text}" if forces.texts else ""]
    parts += [_("at least %d players") % forces.players_min] if forces.players_min else []
    parts += [_("at most %d players") % forces.players_max] if forces.players_max is not None else []
    parts += (
        [ngettext("%d further player", "%d further players", more) % more] if (more := forces.extra_players) else []
    )
    parts += [_("full strings compulsory")] if forces.strings_compulsory else []
    parts += [_("usual doublings")] if forces.usual_doublings else []
    parts += [_("no soloists")] if terms.soloists_excluded else []
    parts += [_("no voices")] if terms.voices_excluded else []
    return "; ".join(part for part in parts if part)


def electronics_text(terms: Terms) -> str:
    most = _(", at most %d channels") % terms.channels_max if terms.channels_max else ""
    only = _(", %s only") % terms.electronics_only if terms.electronics_only else ""
    return f"{terms.electronics or ''}{only}{most}".lstrip(", ")


def number_text(terms: Terms) -> str:
    least, most = terms.works_min, terms.works_max
    if least and most:
        return str(most) if least == most else _("%(least)d to %(most)d") % {"least": least, "most": most}
    if most:
        return ngettext("one", "at most %d", most) % most if most > 1 else _("one")
    return _("at least %d") % least if least else ""


def files_text(portal: Portal) -> str:
    """Return what the portal takes, in words."""
    least = f"{portal.statement_least}–" if portal.statement_least else ""
    parts = (
        _("statement of %s words") % f"{least}{portal.statement_words}" if portal.statement_words else "",
        _("biography of at most %d words") % portal.life_words if portal.life_words else "",
        _("CV of at most %d pages") % portal.cv_pages if portal.cv_pages else "",
        _("writing sample of at most %d pages") % portal.sample_pages if portal.sample_pages else "",
        _("recordings of at most %s") % clock(portal.excerpt) if portal.excerpt else "",
        _("a file at most %s") % in_megabytes(portal.file_bytes) if portal.file_bytes else "",
        _("together at most %s") % in_megabytes(portal.pack_bytes) if portal.pack_bytes else "",
        _("of the kinds %s") % listed(portal.formats, "or") if portal.formats else "",
        _("called %s") % portal.file_names if portal.file_names else "",
    )
    return "; ".join(part for part in parts if part)


def words_text(terms: Terms) -> str:
    """Return in which languages the words may be and what their rights must be."""
    names = [language_name(code) for code in terms.text_languages]
    rights = [str(terms.text_rights)] if terms.text_rights else []
    return "; ".join([*([_("in %s") % listed(names, "or")] if names else []), *rights])


def novelty_text(terms: Terms) -> str:
    parts = []
    if terms.unperformed:
        by = "" if terms.novelty.by is Players.ANYONE else _(" by %s") % terms.novelty.by.value
        parts.append(_("not performed") + by)
    parts += [_("unpublished")] if terms.unpublished else []
    parts += [_("unrecorded")] if terms.unrecorded else []
    return ", ".join(parts)
