"""Walks along a text and makes a draft of each thing it names; what a draft means is settled afterwards.

    text = { heading | doubling clause | ensemble | voices | strings | item | remark } ;

parted by points, commas, slashes, dashes, semicolons, colons, line ends and joining words.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Callable
from dataclasses import replace

from catalogue.instrumentation import choirs, ensembles, headings, limits, page_labels
from catalogue.instrumentation.channels import lists_players
from catalogue.instrumentation.choices import choice_after_colon, is_kind
from catalogue.instrumentation.choir_names import calls_choir
from catalogue.instrumentation.clause_tails import opens_clause, quiet, say_of_others, shorter, tells_of_players
from catalogue.instrumentation.describing import describe
from catalogue.instrumentation.doublings import clause_end, doublings_in
from catalogue.instrumentation.drafts import Draft, Forces
from catalogue.instrumentation.elsewhere import put_elsewhere
from catalogue.instrumentation.itemising import opened
from catalogue.instrumentation.items import bare_figure, begins_item, begins_named, item_at, last_figure
from catalogue.instrumentation.key_tails import note_pitch
from catalogue.instrumentation.lexicon import (
    AND,
    ARTICLES,
    DESCRIBING,
    EACH,
    FOR,
    OFFSTAGE,
    OPTIONAL,
    OR,
    REMARKS,
    SOLO,
    USUAL_FORCES,
)
from catalogue.instrumentation.line_ups import another_line_up
from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.openers import may_be_body, opens_heading
from catalogue.instrumentation.percussion_lists import counted_end, list_end
from catalogue.instrumentation.phrases import count_at, is_small, keys_end, phrase_end, token_at
from catalogue.instrumentation.plain_items import bracketed_figure, plain_item
from catalogue.instrumentation.players_meant import Section, may_double, percussion_clause
from catalogue.instrumentation.plurals import count_pairs
from catalogue.instrumentation.qualifying import qualified
from catalogue.instrumentation.repeats import repeated_bracket
from catalogue.instrumentation.role_ends import ends_role
from catalogue.instrumentation.said_after import said_after
from catalogue.instrumentation.scope import Scope
from catalogue.instrumentation.sizes import keyed_at, suspended_at
from catalogue.instrumentation.tallies import say_of_body, tell
from catalogue.instrumentation.tokens import Bracket, Node, Nodes, Token
from catalogue.instrumentation.unknown import stray_mark, unknown_at
from catalogue.instrumentation.vocabulary import family_of, instruments

MARKS = ".,;:/-+\n·•*&|…"
SILENT = "\"'“”„‟«»‹›‚‛_†‡"
CHOIR_LABELS = ("choir ", "coro ", "chor ", "chœur ")
EITHER = "∨"


SMALL = ARTICLES | REMARKS | FOR | OR


Reader = Callable[[int], int | None]


class Scan:
    """One walk over the nodes of a text or of a bracket."""

    def __init__(self, nodes: Nodes, forces: Forces, scope: Scope, *, formula: bool, slash_parts: bool) -> None:
        self.nodes = nodes
        self.forces = forces
        self.scope = scope
        self.formula = formula
        self.slash_parts = slash_parts
        self.separator = ""
        self.first = len(forces.drafts)
        self.suspended = re.search(r"-\s", forces.text) is not None

    @property
    def last(self) -> Draft | None:
        """The draft made last in this walk."""
        drafts = self.forces.drafts
        return drafts[-1] if len(drafts) > self.first else None

    def walk(self) -> None:
        """Read all nodes."""
        at = headings.title_end(self.nodes)
        while at < len(self.nodes):
            after = self.step(at)
            at = after if after > at else at + 1

    def step(self, at: int) -> int:
        node = self.nodes[at]
        if node.kind == "mark" or (is_small(node, AND) and not self.opens_name(at)):
            return self.part(at)
        if isinstance(node, Bracket):
            return self.loose_bracket(at)
        sized = keyed_at(self.nodes, at, self.forces) if self.forces.kind[0] else None
        sized = sized or (suspended_at(self.nodes, at) if self.suspended else None)
        if sized is not None:
            self.add(sized[0])
            return sized[1]
        if at + 1 < len(self.nodes) and self.nodes[at + 1].key in EACH and (after := self.pairs(at)) is not None:
            return after
        if node.kind == "number" and (figure := bare_figure(self.nodes, at)) is not None:
            self.add(figure)
            return at + 1
        plain = bracketed_figure(self.nodes, at) if node.kind == "number" else None
        if node.kind == "number" and plain is None and (after := self.last_figure(at)) is not None:
            return after
        if (plain := plain or plain_item(self.nodes, at)) is not None:
            self.add(plain[0])
            return plain[1]
        for read in self.after_number() if node.kind == "number" else self.anywhere():
            after = read(at)
            if after is not None:
                return after
        return unknown_at(self, at)

    def anywhere(self) -> tuple[Reader, ...]:
        """Return what reads at a place, in the order in which it is tried."""
        start = (self.choice, self.heading, self.clause, self.elsewhere, self.pitch, self.article)
        return (self.pairs, *start, self.body, self.item, functools.partial(another_line_up, self), self.small_word)

    def after_number(self) -> tuple[Reader, ...]:
        """Return what reads where a number stands."""
        again = functools.partial(repeated_bracket, self)
        return self.choice, self.clause, self.elsewhere, again, self.body, self.item

    def opens_name(self, at: int) -> bool:
        """Whether a name of several words, a key or ``en coulisse`` begins here: the first of them joins nothing."""
        found = name_at(self.nodes, at)
        away = keys_end(self.nodes, at) or phrase_end(self.nodes, at, OFFSTAGE)
        return (found is not None and found.end > at + 1) or away is not None

    def part(self, at: int) -> int:
        """Take a separator; an end of line or a semicolon ends what a heading said of roles."""
        node = self.nodes[at]
        assert isinstance(node, Token)  # noqa: S101 — narrows the type
        if node.kind == "word" or node.text == "&":
            self.separator += "&"
            return at + 1
        if node.text not in MARKS and node.text not in SILENT:
            return stray_mark(self, at)
        if node.text in MARKS:
            self.separator = self.separator.replace(EITHER, "")
            following = token_at(self.nodes, at + 1)
            spaced = node.spaced or (following is not None and following.spaced)
            self.separator += f" {node.text} " if spaced and node.text in "-/" else node.text
        if self.scope.role_ends and ends_role(self, at):
            placed = self.scope.role == "offstage" or ";" in self.scope.role_ends
            away = placed and node.text == ";"
            group = None if away else self.scope.group
            self.scope = replace(self.scope, role="ensemble", role_ends="", optional=False, group=group)
        if node.text == ";" and (self.scope.group or "").startswith(CHOIR_LABELS):
            self.scope = replace(self.scope, group=None)
        return at + 1

    def add(self, draft: Draft) -> None:
        """Keep a draft with what is around it."""
        if EITHER in self.separator and self.last is not None and not draft.figure:
            self.alternative(self.last, draft)
            return
        draft.separator = self.separator
        draft.extra = draft.extra or (self.separator.endswith("+") and not self.opens_formula(draft))
        draft.heading = self.scope.heading
        draft.group = draft.group or self.scope.group
        draft.optional = draft.optional or self.scope.optional
        if self.scope.role != "ensemble":
            draft.role = self.scope.role
        if self.scope.role == "soloist":
            choirs.sing_alone(draft)
        if self.scope.choice:
            draft.notes.append(self.scope.choice)
            self.scope = replace(self.scope, choice="")
        if self.scope.unit and draft.unit is None:
            draft.unit = self.scope.unit
        self.forces.drafts.append(draft)
        self.separator = ""

    def opens_formula(self, draft: Draft) -> bool:
        """Whether a figure is the first of all, so that it is no player added to one, ``picc + 2.2.2.2``."""
        return draft.figure and not any(one.figure for one in self.forces.drafts)

    def alternative(self, last: Draft, draft: Draft) -> None:
        """Keep what stands after ``or`` as an alternative to the line before it."""
        written = self.forces.written(draft.start, draft.end)
        plain = (
            draft.slug in instruments() and draft.slug != "strings" and draft.family != "voice" and not draft.collective
        )
        for one in self.beside_last():
            if plain and one.slug != draft.slug:
                one.alternatives.append(draft.slug)
            else:
                one.notes.append(f"or {written}")
        message = f"“{written}” was kept as an alternative to what stands before it."
        self.forces.remark("alternative", message, draft.start, draft.end)
        self.separator = EITHER

    def choice(self, at: int) -> int | None:
        """Read ``minimum 8 players from``: each of those that follow may be chosen."""
        after = limits.choice_end(self.nodes, at)
        if after is None or (not begins_item(self.nodes, after) and not isinstance(self.nodes[after], Bracket)):
            return None
        start, stop = self.nodes[at].start, self.nodes[after - 1].end
        written = self.forces.written(start, stop).rstrip(" :")
        self.scope = replace(self.scope, optional=True, role_ends=";\n", choice=written)
        self.forces.remark("choice", f"“{written}” was read as a choice: each of those named may play.", start, stop)
        self.separator += "§"
        return after

    def heading(self, at: int) -> int | None:
        node = self.nodes[at]
        labelled = page_labels.label_at(self.nodes, at, self.scope)
        if labelled is None and (type(node) is not Token or not opens_heading(node)):
            return None
        found = labelled or headings.heading_at(self.nodes, at, self.scope, self.separator)
        if found is None:
            return None
        self.scope, after = found
        self.separator += "§"
        return after

    def clause(self, at: int) -> int | None:
        """Give a doubling clause after a comma to the item before it."""
        last = self.last if may_double(self.nodes) else None
        if last is None or not set(self.separator) <= set(", -&.\n"):
            return None
        if last.slug in ("percussion", "timpani"):
            return percussion_clause(self.nodes, at, last, self.forces)
        start = at + 1 if self.nodes[at].is_word("with", "mit", "avec", "con") else at
        section = Section(last.section, last.slug, last.most)
        if start >= len(self.nodes) or not opens_clause(self.nodes, start, section):
            return None
        end = clause_end(self.nodes, start)
        while end > start:
            if doublings_in(self.nodes[start:end], section, quiet(self.forces)) is not None:
                of_section = "\n" in self.separator and bool(last.number_after or last.seats)
                (last.section_clauses if of_section else last.clauses).append(tuple(self.nodes[start:end]))
                say_of_others(self.nodes, start, end, self.forces, self.forces.drafts[self.first : -1])
                return end
            end = shorter(self.nodes, start, end)
        return None

    def elsewhere(self, at: int) -> int | None:
        return put_elsewhere(self.nodes, at, self.last, self.forces)

    def pitch(self, at: int) -> int | None:
        """Give a key that stands after an abbreviation's point, ``Kl. in A``, to the item before it."""
        end = keys_end(self.nodes, at)
        if end is not None and self.last is not None and self.last.family in ("woodwind", "brass"):
            note_pitch(self.last, self.forces, self.nodes, at + 1, end)
        return end

    def article(self, at: int) -> int | None:
        """Pass over an article that begins no name and no number."""
        if not is_small(self.nodes[at], ARTICLES) or count_at(self.nodes, at) is not None:
            return None
        found = name_at(self.nodes, at)
        return at + 1 if found is None or found.end == at + 1 else None

    def body(self, at: int) -> int | None:
        found = ensembles.body_at(self.nodes, at, self.forces) if may_be_body(self.nodes, at) else None
        if found is None:
            return None
        drafts, after, dropped = found
        if dropped:
            tell(self.nodes, at, after, self.forces)
            self.scope, mark = opened(self.nodes, at, after, self.scope)
            self.separator += mark
            return after
        sung = self.scope.role == "soloist" and any(draft.slug.startswith("choir") for draft in drafts)
        if sung and calls_choir(self.nodes, at, after):
            self.scope = replace(self.scope, role="ensemble", role_ends="")
        describe(self.nodes, at, after, drafts)
        say_of_body(self.nodes, at, after, drafts, self.forces)
        for draft in drafts:
            self.add(draft)
        after = qualified(self.nodes, after, drafts, self.forces)
        return self.listed(drafts[0], after) if drafts and drafts[-1].slug == "percussion" else after

    def last_figure(self, at: int) -> int | None:
        found = last_figure(self.nodes, at, self.forces)
        if found is None:
            return None
        self.add(found[0])
        return found[1]

    def item(self, at: int) -> int | None:
        found = item_at(self.nodes, at, self.forces, formula=self.formula, slash_parts=self.slash_parts)
        if found is None:
            return None
        draft, after = found
        describe(self.nodes, at, draft.name.first if draft.name else after, [draft])
        self.add(draft)
        return self.listed(draft, after)

    def listed(self, draft: Draft, at: int) -> int:
        """Take the list of instruments after percussion, and what is said of electronics after a colon, as notes."""
        if draft.slug == "percussion":
            at = counted_end(self.nodes, at, draft)
            end = list_end(self.nodes, at, draft)
        elif draft.family == "electronics" and self.says_more(at):
            end = headings.line_end(self.nodes, at)
        elif is_kind(draft) and (choice := choice_after_colon(self.nodes, at)) is not None:
            draft.brackets.append(choice)
            return at + 1 + len(choice.nodes)
        else:
            return at
        if end > at + 1 and not isinstance(self.nodes[at + 1], Bracket):
            last = self.nodes[end - 1]
            octave = isinstance(last, Bracket) and page_labels.says_octave(last.nodes)
            draft.notes.append(self.forces.written(self.nodes[at].end, self.nodes[end - 1 - octave].end))
        return end

    def says_more(self, at: int) -> bool:
        """Whether a colon opens what is said of electronics, and not the figures of an orchestra."""
        if at >= len(self.nodes) or not self.nodes[at].is_mark(":"):
            return False
        found = name_at(self.nodes, at + 1)
        listed = found is not None and family_of(found.slugs[0]) in ("woodwind", "brass", "strings")
        return not listed and not headings.figures_follow(self.nodes, at + 1)

    def pairs(self, at: int) -> int | None:
        return count_pairs(self.nodes, at, self.forces, self.separator)

    def small_word(self, at: int) -> int | None:
        """Pass over articles and remarks; a word for optional or amplified after an item belongs to that item."""
        end = said_after(self, at)
        if end is not None:
            return end
        solo = phrase_end(self.nodes, at, SOLO)
        if solo is not None:
            return self.solo_word(at, solo)
        if is_small(self.nodes[at], OR) and self.last is not None:
            self.separator += EITHER
            return at + 1
        if is_small(self.nodes[at], DESCRIBING) and not self.separator:
            describe(self.nodes, at, at + 1, self.beside_last())
        if is_small(self.nodes[at], SMALL):
            return phrase_end(self.nodes, at, USUAL_FORCES) or at + 1
        return phrase_end(self.nodes, at, USUAL_FORCES)

    def beside_last(self) -> list[Draft]:
        """Return the draft made last, with the others of its body."""
        last = self.last
        if last is None:
            return []
        return [one for one in self.forces.drafts if (one.start, one.end) == (last.start, last.end)]

    def solo_word(self, at: int, end: int) -> int:
        following = token_at(self.nodes, end)
        last = self.last
        if last is not None and (following is None or following.kind == "mark"):
            last.role = "soloist"
        elif following is not None and begins_item(self.nodes, end):
            self.scope = replace(self.scope, role="soloist", role_ends=";:\n–")
        return end

    def loose_bracket(self, at: int) -> int:
        """Give a bracket to the item before it; one that stands alone is read like the text around it."""
        node = self.nodes[at]
        assert isinstance(node, Bracket)  # noqa: S101 — narrows the type
        last = self.last
        if last is not None and set(self.separator) <= set(".: ") and not lists_players(node, last, self.forces):
            last.brackets.append(node)
            return self.listed(last, at + 1) if last.slug == "percussion" else at + 1
        if last is not None and self.separator == "," and tells_of_players(node.nodes, last):
            last.brackets.append(node)
            return at + 1
        optional = node.opening == "[" and (self.last is not None or begins_named(node.nodes))
        scope = replace(self.scope, optional=self.scope.optional or optional)
        first = len(self.forces.drafts)
        self.inner(node.nodes, replace(scope, role_ends=""))
        self.separator = ""
        end = phrase_end(self.nodes, at + 1, OPTIONAL) if len(self.forces.drafts) > first + 1 else None
        for draft in self.forces.drafts[first:] if end is not None else ():
            draft.optional = True
        if "[" in self.scope.role_ends:
            self.scope = replace(self.scope, role="ensemble", group=None, role_ends="", optional=False, heading="")
        return at + 1 if end is None else end

    def inner(self, nodes: tuple[Node, ...], scope: Scope) -> None:
        """Read the nodes of a bracket as part of the text."""
        inner = Scan(nodes, self.forces, scope, formula=self.formula, slash_parts=self.slash_parts)
        inner.separator = self.separator
        inner.walk()
