"""Reads an instrumentation from text: the one way in.

Cut the text, walk along it, give figures their places, settle what the names mean together, then brackets, strings
and percussion, and make the lines. What a convention decides is told in the remarks.
"""

from __future__ import annotations

from dataclasses import replace

from catalogue.instrumentation import (
    brackets,
    choices,
    choirs,
    codes,
    company,
    conventions,
    denials,
    finishing,
    formula,
    lists,
    orchestras,
    percussion,
    plurals,
    quintets,
    settling,
    sizes,
    soloists,
    strings,
)
from catalogue.instrumentation.absences import shortened
from catalogue.instrumentation.accounts import say_of_unaccounted
from catalogue.instrumentation.asides import beside
from catalogue.instrumentation.band_parts import say_of_band_parts
from catalogue.instrumentation.capitals import quiet_capitals
from catalogue.instrumentation.dashes import say_of_dashes
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.languages import Speech
from catalogue.instrumentation.lead_ins import without_lead
from catalogue.instrumentation.letters import letters_for_families
from catalogue.instrumentation.limit_words import without_limit
from catalogue.instrumentation.line_ups import read_line_ups
from catalogue.instrumentation.listed_sizes import listed_sizes
from catalogue.instrumentation.margins import without_margins
from catalogue.instrumentation.members_told import members_in_brackets
from catalogue.instrumentation.model import Instrumentation, InstrumentationError, Remark
from catalogue.instrumentation.numbered_parts import merge_seats
from catalogue.instrumentation.ordinals import pointed_ordinals
from catalogue.instrumentation.percussion_labels import percussion_labels
from catalogue.instrumentation.percussion_players import drop_label
from catalogue.instrumentation.pointed_sizes import pointed_sizes
from catalogue.instrumentation.run_on import part_run_on
from catalogue.instrumentation.scanning import Scan
from catalogue.instrumentation.scope import Scope
from catalogue.instrumentation.spelling import ensemble_compound, solo_compound, two_words
from catalogue.instrumentation.strange_doublings import say_of_strange_doublings
from catalogue.instrumentation.string_parts import sections_by_parts
from catalogue.instrumentation.strings_asked import ask_for_strings
from catalogue.instrumentation.tallies import compare, say_of_numbers
from catalogue.instrumentation.tokens import Bracket, Node, Row, Token, nodes_of
from catalogue.instrumentation.unclosed import ended

LONGEST = 4_000


def read(
    text: str, *, language: str | None = None, convention: str | None = None, strings_are: str | None = None
) -> Instrumentation:
    """Return the forces that a text names.

    ``language`` is one of ``vocabulary.LANGUAGES`` and is found out where it is not given; ``convention`` is a name
    from ``conventions.NAMES`` that overrides the one of the text; ``strings_are`` is ``players`` or ``desks``. Raises
    InstrumentationError where the text cannot be read.

    >>> [line.instrument for line in read("2(II=picc).2.2.2 – hp")]
    ['flute', 'oboe', 'clarinet', 'bassoon', 'harp']
    """
    if len(text) > LONGEST:
        reason = f"The text is longer than {LONGEST} characters; an instrumentation is shorter."
        raise InstrumentationError(reason, text[:200], 0, 200)
    if language or convention or strings_are:
        return read_all(text, language, convention, strings_are)
    families = orchestras.in_usual_dress(text)
    if families is None:
        return lists.recalled(text, read_all) or read_all(text)
    reading = orchestras.recalled(families)
    if reading is None:
        reading = read_all(text)
        orchestras.keep(families, reading)
    return reading


def read_all(
    text: str, language: str | None = None, convention: str | None = None, strings_are: str | None = None
) -> Instrumentation:
    """Return the forces of a text by reading all of it, whatever has been read before."""
    forces_only, named = without_margins(text)
    nodes = unwrapped(without_stop(nodes_of(shortened(without_lead(quiet_capitals(forces_only))))))

    def read_one(stretch: str) -> Instrumentation:
        return read_nodes(stretch, unwrapped(nodes_of(stretch)), language, convention, strings_are)

    found = read_line_ups(text, nodes, read_one) or read_nodes(text, nodes, language, convention, strings_are)
    return replace(found, warnings=(*found.warnings, *(not_read(text, *place) for place in named))) if named else found


def not_read(text: str, start: int, end: int) -> Remark:
    """Return the remark on words around the forces that name an instrument all the same."""
    message = f"“{' '.join(text[start:end].split())}” was not read as part of the forces."
    return Remark(start, end, "not-read", message, "players that the work needs")


def read_nodes(
    text: str, nodes: tuple[Node, ...], language: str | None, convention: str | None, strings_are: str | None
) -> Instrumentation:
    """Return the forces of a text that names one line-up."""
    forces = Forces(text, Speech(nodes, language), strings_are=strings_are)
    nodes = percussion_labels(listed_sizes(codes.without_heading(ended(nodes, forces))))
    nodes = members_in_brackets(pointed_sizes(pointed_ordinals(nodes), forces))
    nodes = beside(without_limit(part_run_on(parted(nodes, forces), forces), forces))
    conventions.prepare(forces, nodes, convention)
    Scan(nodes, forces, Scope(), formula=forces.formula, slash_parts=forces.slash_parts).walk()
    settle(forces)
    lines = finishing.lines_of(forces)
    if not lines:
        raise InstrumentationError(
            "No instrument or voice is named here.", text, 0, len(text), ("the name of an instrument",)
        )
    compare(forces, lines)
    ask_for_strings(forces, lines)
    say_of_unaccounted(nodes, forces, lines)
    return Instrumentation(
        lines=lines,
        text=text,
        electronics=finishing.electronics_of(forces, lines),
        channels=forces.channels,
        convention=conventions.name_of(forces),
        warnings=tuple(sorted(forces.remarks, key=lambda remark: (remark.start, remark.end, remark.code))),
    )


def settle(forces: Forces) -> None:
    """Settle the drafts, each step on what the one before it made sure."""
    percussion.timpani_and(forces)
    drop_label(forces)
    letters_for_families(forces)
    settling.settle_bodies(forces)
    choirs.number_alike(forces)
    strings.figures_before_strings(forces)
    formula.place(forces)
    settle_names(forces)
    soloists.carry_soli(forces)
    soloists.carry_back(forces)
    settling.counts_after_names(forces)
    settling.copies_in_set(forces)
    plurals.open_plurals(forces)
    plurals.shared_numbers(forces)
    company.brass_band_horns(forces)
    settling.remark_on_names(forces)
    orchestral = settling.is_orchestral(forces)
    settled: list[Draft] = []
    for draft in list(forces.drafts):
        extras = [] if draft.slug in ("strings", "percussion", "timpani") else brackets.interpret(draft, forces)
        settled += [draft, *extras]
    forces.drafts[:] = settled
    soloists.concerto_soloists(forces)
    soloists.early_soloists(forces)
    soloists.before_string_orchestra(forces)
    soloists.settle_soloists(forces)
    soloists.stray_soloist(forces)
    settle_company(forces)
    percussion.settle_percussion(forces, orchestral=orchestral)
    denials.from_bodies(forces)
    strings.chamber_strings(forces)
    quintets.strings_of_orchestra(forces)
    sections_by_parts(forces)
    strings.settle_strings(forces, orchestral=orchestral)
    say_of_numbers(forces)
    say_of_strange_doublings(forces)
    say_of_dashes(forces)
    codes.say_of_pointed_v(forces)
    say_of_band_parts(forces.speech.nodes, forces)
    merge_seats(forces)
    settling.refuse_nameless(forces)


def settle_company(forces: Forces) -> None:
    """Give the names that the players beside them give another meaning that meaning."""
    company.clarinets_in_a(forces)
    company.electric_pianos(forces)
    company.drum_kits(forces)
    company.click_tracks(forces)
    company.loudspeakers(forces)


def settle_names(forces: Forces) -> None:
    """Give every name the instrument that it means here."""
    sizes.name_sizes(forces)
    choices.sizes_after_comma(forces)
    sizes.carry_sizes(forces)
    settling.choose_names(forces)
    codes.capital_voices(forces)
    company.alto_or_viola(forces)
    company.small_flutes(forces)
    company.second_kl(forces)
    company.tenor_tubas(forces)
    company.keyboards_apart(forces)
    company.brass_band_basses(forces)
    settling.kettledrums(forces)
    settling.children_sing(forces)
    company.big_band_saxophones(forces)


def parted(nodes: tuple[Node, ...], forces: Forces) -> tuple[Node, ...]:
    """Return the nodes with words that were run together, ``saxophonehorn``, as two."""
    found: list[Node] = []
    for node in nodes:
        long = isinstance(node, Token) and node.kind == "word" and len(node.text) > 6
        compound = (ensemble_compound(node) or solo_compound(node)) if long and isinstance(node, Token) else None
        parts = two_words(node) if compound is None and long and isinstance(node, Token) else compound
        if parts is not None and compound is None:
            forces.remark(
                "spelling", f"“{forces.written(node.start, node.end)}” was read as two words.", node.start, node.end
            )
        found += parts or (node,)
    return Row(found)


def without_stop(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the nodes without the full stop that ends the text; one after a figure may be its mark, ``Picc.1.``."""
    ends = len(nodes) > 1 and nodes[-1].is_mark(".") and nodes[-2].kind in ("word", "bracket")
    return Row(nodes[:-1]) if ends else nodes


def unwrapped(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """Return the inside of a bracket that holds the whole text, or the orchestra before all else, ``[2222], SATB``."""
    while len(nodes) == 1 and isinstance(nodes[0], Bracket):
        nodes = nodes[0].nodes
    first = nodes[0] if nodes else None
    if isinstance(first, Bracket) and first.opening == "[" and conventions.has_formula(first.nodes):
        return Row((*first.nodes, *nodes[1:]))
    return nodes
