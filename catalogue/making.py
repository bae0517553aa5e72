"""Makes a document from the records: gathers the facts, reckons the firsts, and has it told.

The one place, beside views and commands, where the two arms meet; a page and a command that ask for the same get the
same document.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

from django.db.models import QuerySet

from catalogue.documents.contents.hire_statement import Period
from catalogue.documents.contents.history import hearings
from catalogue.documents.contents.parts_checklist import Hire as Loan
from catalogue.documents.contents.parts_checklist import Setting
from catalogue.documents.contents.performance_return import Member
from catalogue.documents.contents.programme_entry import Room, Written
from catalogue.documents.contents.prose import Prose
from catalogue.documents.contents.selection import Chosen
from catalogue.documents.contents.works_list import WHOLE, Telling
from catalogue.documents.model import Adjustments, Document, Logo, Paper
from catalogue.documents.needs import DocumentNeeds
from catalogue.documents.reading_order import longest_list
from catalogue.documents.registry import builder, pages_of, small_logo
from catalogue.facts import CatalogueFacts, PerformanceFacts, WorkFacts
from catalogue.gathering.catalogues import gather_catalogue, once
from catalogue.gathering.hires import ALONG, gather_hire, gather_hires
from catalogue.gathering.journeys import gather_terms
from catalogue.gathering.logos import bytes_of, logo_worn
from catalogue.gathering.people import gather_composer
from catalogue.gathering.performances import gather_performance
from catalogue.gathering.records import gather_records_of_composer, gather_records_of_work
from catalogue.gathering.technical import gather_rider, gather_setups
from catalogue.gathering.timing import gather_timing
from catalogue.gathering.works import gather_work
from catalogue.models import Composer, Hire, Performance, Rider, Work
from catalogue.record_facts import BiographyFacts, ComposerRecords, ProgrammeNoteFacts
from catalogue.rules.clearances import words_may_be_printed
from catalogue.rules.hires.making_up import set_of, things_of
from catalogue.rules.phrases import listed
from catalogue.rules.premieres import claims_by_programmed
from catalogue.terms import FaceFamily, HouseStyle, PaperMargins


@dataclass(frozen=True, slots=True)
class Wish:
    """Which document is wanted. ``first`` and ``last`` are days, both included; ``works``, ``performance`` and ``hire``
    ids.

    ``works`` limits a list to these; a document of one work takes the only one. ``words`` is how long a note may be;
    ``society``, ``member_number`` and ``due`` are for a return, ``pages`` is how many a CV may have, ``telling`` how a
    works list tells its works, ``has_cover`` whether front matter begins with a cover,
    ``is_anonymous`` whether it names nobody; a rider then stands under the ``motto``.
    """

    kind: str
    language: str
    paper: Paper
    today: date
    first: date | None = None
    last: date | None = None
    works: tuple[int, ...] = ()
    performance: int | None = None
    hire: int | None = None
    words: int | None = None
    society: str = ""
    member_number: str = ""
    due: date | None = None
    pages: int | None = None
    telling: Telling = WHOLE
    has_cover: bool = True
    is_anonymous: bool = False
    motto: str = ""


def make_document(composer: Composer, wish: Wish) -> Document:
    """Return the document. KeyError for an unknown kind, DocumentNeeds where a fact it cannot do without is missing."""
    return dressed(MAKERS[wish.kind](composer, wish), composer, has_logo=not wish.is_anonymous)


def dressed(document: Document, composer: Composer, *, has_logo: bool = True) -> Document:
    """The document as the composer's papers look: as those of the house, where they have no look of their own."""
    house = composer.house if composer.house_id and not composer.own_look else None
    worn = house or composer
    face = FaceFamily(worn.paper_face) if worn.paper_face else None
    logo = drawn_logo(composer) if has_logo else None
    adjusted = Adjustments(face, worn.paper_ink, PaperMargins(worn.paper_margins), logo)
    return replace(document, house=HouseStyle(worn.house_style), adjusted=adjusted)


def drawn_logo(composer: Composer) -> Logo | None:
    kept = logo_worn(composer)
    return small_logo(bytes_of(kept), kept.alternative) if kept else None


def make_works_list(composer: Composer, wish: Wish) -> Document:
    catalogue, claims = reckoned(composer, wish)
    if wish.works:
        catalogue = replace(catalogue, works=tuple(work for work in catalogue.works if work.id in wish.works))
    order = wish.kind.rpartition("-")[2]
    return builder(wish.kind)(catalogue, by=order, claims=claims, telling=wish.telling, **setting_of(wish))


def make_cv_section(composer: Composer, wish: Wish) -> Document:
    """The sections, where a number of pages is wished with as many lines each as fit there."""
    catalogue, claims = reckoned(composer, wish)
    awards = gather_records_of_composer(composer).awards

    def made(most: int | None) -> Document:
        choice = Chosen(wish.first, wish.last, frozenset(wish.works) or None, most)
        return builder(wish.kind)(catalogue, choice=choice, awards=awards, claims=claims, **setting_of(wish))

    return fitted(made, wish.pages) if wish.pages else made(None)


def fitted(made: Callable[[int | None], Document], pages: int) -> Document:
    """The document with as many lines a section as there are pages for, at least one."""
    whole = made(None)
    if pages_of(whole) <= pages:
        return whole
    fits, too_many = 1, longest_list(whole)
    while too_many - fits > 1:
        middle = (fits + too_many) // 2
        if pages_of(made(middle)) <= pages:
            fits = middle
        else:
            too_many = middle
    return made(fits)


def make_performance_history(composer: Composer, wish: Wish) -> Document:
    catalogue, claims = reckoned(composer, wish)
    choice = Chosen(wish.first, wish.last, frozenset(wish.works) or None)
    return builder(wish.kind)(catalogue, choice=choice, claims=claims, **setting_of(wish))


def make_press_sheet(composer: Composer, wish: Wish) -> Document:
    catalogue, claims = reckoned(composer, wish)
    choice = Chosen(wish.first, wish.last, frozenset(wish.works) or None)
    records = gather_records_of_composer(composer)
    return builder(wish.kind)(
        catalogue,
        lives=lives_of(records, composer.language),
        reviews=records.reviews,
        choice=choice,
        claims=claims,
        **setting_of(wish),
    )


def lives_of(records: ComposerRecords, language: str) -> tuple[Prose, ...]:
    """What has been written about the composer, and not about somebody else."""
    about = (one for one in records.biographies if one.person_id is None)
    return tuple(prose_of(one, language) for one in about)


def prose_of(text: ProgrammeNoteFacts | BiographyFacts, language: str) -> Prose:
    """Return a text to print; one that stands with the work or in the profile is in the catalogue's language."""
    return Prose(text.body, text.language or (language if text.id is None else ""), text.author)


def written_about(work: Work, composer: Composer, today: date) -> Written:
    """What there is to print with a work; a line that is asked for stands below its text, else with the credits."""
    records = gather_records_of_work(work)
    return Written(
        notes=tuple(prose_of(one, composer.language) for one in records.programme_notes),
        lives=lives_of(gather_records_of_composer(composer), composer.language),
        credits=tuple(
            one.credit for one in records.text_sources if one.credit and not words_may_be_printed(one, today)
        ),
        texts=records.text_sources,
    )


def make_performance_return(composer: Composer, wish: Wish) -> Document:
    """The return of a period, of last year where none is named."""
    first = wish.first or date((wish.last or wish.today).year - (wish.last is None), 1, 1)
    last = wish.last or (date(first.year, 12, 31) if wish.first is None else wish.today)
    catalogue, member = gather_catalogue(composer), member_of(composer, wish)
    return builder(wish.kind)(catalogue, first=first, last=last, member=member, **setting_of(wish))


def member_of(composer: Composer, wish: Wish) -> Member:
    """Who reports to whom, with that society's deadlines; where none is named, the only one of which any are kept."""
    terms = gather_terms([composer.pk]).get(composer.pk, ())
    societies = {one.society.casefold(): one.society for one in terms}
    society = wish.society or (next(iter(societies.values())) if len(societies) == 1 else "")
    theirs = tuple(one for one in terms if one.society.casefold() == society.casefold())
    return Member(society, wish.member_number, wish.due, theirs)


def make_programme_entry(composer: Composer, wish: Wish) -> Document:
    performance = wanted_performance(composer, wish.performance)
    found = wanted_record(composer, wish, performance)
    catalogue, claims = reckoned(composer, wish)
    return builder(wish.kind)(
        gather_work(found),
        catalogue.composer,
        written=written_about(found, composer, wish.today),
        heard=hearings(catalogue, claims).get(found.pk, ()),
        performance=wish.performance,
        room=Room(note=wish.words),
        **setting_of(wish),
    )


def make_parts_checklist(composer: Composer, wish: Wish) -> Document:
    """The checklist of a hire with the set as it was made up, else of a work for a performance or in general."""
    if wish.hire is not None:
        return make_checklist_of_hire(composer, wish)
    performance = wanted_performance(composer, wish.performance)
    work = wanted_work(composer, wish, performance)
    told = gather_composer(composer)
    return builder(wish.kind)(
        work,
        told,
        performances=(performance,) if performance else (),
        setting=Setting(strings=told.string_strengths),
        **setting_of(wish),
    )


def make_checklist_of_hire(composer: Composer, wish: Wish) -> Document:
    record = wanted_hire(composer, wish)
    hire, told = gather_hire(record), gather_composer(composer)
    besides = things_of(hire.items)
    loan = Loan(hire.hirer, hire.set_number, hire.out_on, hire.due, hire.carrier, hire.strings, besides)
    made_up = set_of(hire.items)
    return builder(wish.kind)(
        gather_work(record.work),
        told,
        performances=hire.performances,
        hire=loan,
        setting=Setting(strings=told.string_strengths),
        made_up=made_up if made_up.parts else None,
        **setting_of(wish),
    )


def make_paper_of_hire(composer: Composer, wish: Wish) -> Document:
    record = wanted_hire(composer, wish)
    return builder(wish.kind)(
        gather_hire(record), gather_work(record.work), gather_composer(composer), **setting_of(wish)
    )


def make_hire_statement(composer: Composer, wish: Wish) -> Document:
    """The account of one hire; where none is named, of all that went out in the period."""
    if wish.hire is not None or wish.works or wish.performance is not None:
        record = wanted_hire(composer, wish)
        work = {record.work_id: gather_work(record.work)}
        return builder(wish.kind)((gather_hire(record),), work, gather_composer(composer), **setting_of(wish))
    hires = gather_hires(composer)
    found = Work.objects.filter(composer=composer, pk__in={one.work for one in hires})
    works = {one.pk: gather_work(one) for one in found.with_everything_printed()}
    period = Period(wish.first, wish.last)
    return builder(wish.kind)(hires, works, gather_composer(composer), period=period, **setting_of(wish))


def make_cue_sheet(composer: Composer, wish: Wish) -> Document:
    performance = wanted_performance(composer, wish.performance)
    found = wanted_record(composer, wish, performance)
    return builder(wish.kind)(
        gather_work(found),
        gather_timing(found),
        gather_composer(composer),
        pocket=wish.kind == "cue-sheet-pocket",
        **setting_of(wish),
    )


def make_rider(composer: Composer, wish: Wish) -> Document:
    """The rider of a work for a performance, of the record that is kept of it, else of what the work has."""
    performance = wanted_performance(composer, wish.performance)
    found = wanted_record(composer, wish, performance)
    kept = Rider.objects.filter(work=found, performance=wish.performance).select_related("performance__venue").first()
    return builder(wish.kind)(
        gather_work(found),
        gather_timing(found),
        gather_rider(found, kept),
        gather_composer(composer),
        performance=performance,
        motto=wish.motto if wish.is_anonymous else None,
        **setting_of(wish),
    )


def make_front_matter(composer: Composer, wish: Wish) -> Document:
    found = wanted_record(composer, wish, None)
    catalogue, claims = reckoned(composer, wish)
    return builder(wish.kind)(
        gather_work(found),
        catalogue.composer,
        records=gather_records_of_work(found),
        setups=gather_setups(found),
        heard=hearings(catalogue, claims).get(found.pk, ()),
        has_cover=wish.has_cover,
        is_anonymous=wish.is_anonymous,
        **setting_of(wish),
    )


MAKERS: dict[str, Callable[[Composer, Wish], Document]] = {
    "works-list-by-category": make_works_list,
    "works-list-by-year": make_works_list,
    "works-list-by-forces": make_works_list,
    "works-list-by-duration": make_works_list,
    "cv-section": make_cv_section,
    "parts-checklist": make_parts_checklist,
    "delivery-note": make_paper_of_hire,
    "arrival-check": make_paper_of_hire,
    "return-check": make_paper_of_hire,
    "missing-parts-letter": make_paper_of_hire,
    "hire-statement": make_hire_statement,
    "press-sheet": make_press_sheet,
    "programme-entry": make_programme_entry,
    "performance-history": make_performance_history,
    "performance-return": make_performance_return,
    "rider": make_rider,
    "front-matter": make_front_matter,
    "cue-sheet": make_cue_sheet,
    "cue-sheet-pocket": make_cue_sheet,
}


def setting_of(wish: Wish) -> dict[str, object]:
    return {"language": wish.language, "paper": wish.paper, "printed_on": wish.today}


def reckoned(composer: Composer, wish: Wish) -> tuple[CatalogueFacts, dict]:
    catalogue = gather_catalogue(composer)
    key = ("claims", composer.pk, wish.today)
    return catalogue, once(key, lambda: claims_by_programmed(catalogue, today=wish.today))


def wanted_hire(composer: Composer, wish: Wish) -> Hire:
    """The hire that is named; else the only one of the work, or for the performance, that is."""
    found = Hire.objects.filter(composer=composer).select_related(*ALONG)
    if wish.hire is not None:
        found = found.filter(pk=wish.hire)
    elif wish.works or wish.performance is not None:
        found = found.filter(work__in=wish.works) if wish.works else found
        found = found.filter(hired_for__performance=wish.performance) if wish.performance is not None else found
    else:
        raise DocumentNeeds("Choose the hire of which this paper is.", ("hire",))
    several = list(found.order_by("pk")[:2])
    if len(several) == 2:
        raise DocumentNeeds("There are several hires of this; choose one by its number.", ("hire",))
    if not several:
        raise DocumentNeeds("This hire is not in the catalogue.", ("hire",))
    return several[0]


def wanted_performance(composer: Composer, id: int | None) -> PerformanceFacts | None:
    if id is None:
        return None
    found = Performance.objects.filter(composer=composer, pk=id).with_everything_printed().first()
    if found is None:
        raise DocumentNeeds("This performance is not in the catalogue.", ("performance",))
    return gather_performance(found)


def wanted_work(composer: Composer, wish: Wish, performance: PerformanceFacts | None) -> WorkFacts:
    return gather_work(wanted_record(composer, wish, performance))


def wanted_record(composer: Composer, wish: Wish, performance: PerformanceFacts | None) -> Work:
    """Return the one work that is meant: the one named, else the only one on the performance's programme."""
    on_programme = {item.work_id for item in performance.programme} if performance else set()
    ids = set(wish.works) or on_programme
    if wish.works and performance and not ids <= on_programme:
        raise DocumentNeeds("This work is not on the programme of the performance.", ("work",))
    found = list(works_of(composer, ids))
    if len(found) == 1:
        return found[0]
    if found:
        titles = listed([f"{work.title} ({work.pk})" for work in found], "or")
        raise DocumentNeeds(f"A document is made of one work at a time; name one of {titles}.", ("work",))
    raise DocumentNeeds("Name the work that the document is of.", ("work",))


def works_of(composer: Composer, ids: set[int]) -> QuerySet[Work]:
    return Work.objects.filter(composer=composer, pk__in=ids).with_everything_printed().in_title_order()
