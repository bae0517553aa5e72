"""What is known of the forces while a text is being read: drafts of lines, and the remarks made on the way."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from catalogue.instrumentation.languages import Speech
from catalogue.instrumentation.model import Chair, InstrumentationError, Remark
from catalogue.instrumentation.names import Name
from catalogue.instrumentation.tokens import Bracket, Node
from catalogue.instrumentation.vocabulary import family_of


class Count(NamedTuple):
    """A number of players that stands in the text, up to the node ``end``."""

    least: int
    most: int
    end: int
    more: bool = False


@dataclass(frozen=True, slots=True)
class Told:
    """A number of players that a text tells of those whom it names, ``15 players: …``, with its place."""

    number: int
    start: int
    end: int


@dataclass(slots=True)
class Draft:
    """A line in the making. ``slug`` is empty for a bare figure until its place is known."""

    slug: str
    start: int
    end: int
    separator: str = ""
    count: Count | None = None
    name: Name | None = None
    figure: bool = False
    soli: bool = False
    packed: bool = False
    extra: bool = False
    starred: bool = False
    doubles: int = 0
    section: str = ""
    heading: str = ""
    number_after: tuple[int, ...] = ()
    seats: tuple[int, ...] = ()
    spare: int = 0
    seated: tuple[str, int] | None = None
    brackets: list[Bracket] = field(default_factory=list)
    clauses: list[tuple[Node, ...]] = field(default_factory=list)
    section_clauses: list[tuple[Node, ...]] = field(default_factory=list)
    slashed: list[str] = field(default_factory=list)
    chairs: list[Chair] = field(default_factory=list)
    alternatives: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    role: str = "ensemble"
    optional: bool = False
    amplified: bool = False
    electric: bool = False
    group: str | None = None
    unit: str | None = None
    strength: str | None = None
    open: bool = False
    plural: bool = False
    collective: str = ""
    without: list[str] = field(default_factory=list)
    numbers: list[tuple[int, int]] = field(default_factory=list)
    parts: int = 1

    @property
    def family(self) -> str:
        """The family of the instrument as far as it is known."""
        return family_of(self.slug) if self.slug else ""

    @property
    def least(self) -> int:
        """The least number of players; one where the text gives none."""
        return self.count.least if self.count else 1

    @property
    def most(self) -> int:
        """The greatest number of players; one where the text gives none."""
        return self.count.most if self.count else 1

    @property
    def size(self) -> int:
        """The number of players among whom some may double; 0 where the text leaves it open."""
        return 0 if self.open and self.count is None else self.most

    def counted(self, least: int, most: int | None = None) -> None:
        """Set the number of players."""
        self.count = Count(least, least if most is None else most, 0)


@dataclass(slots=True)
class Forces:
    """Everything that has been read so far of one text."""

    text: str
    speech: Speech
    drafts: list[Draft] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)
    electronics: set[str] = field(default_factory=set)
    channels: str | None = None
    brackets: str = ""
    figures: str = ""
    others: frozenset[str] = frozenset()
    dresses: set[str] = field(default_factory=set)
    strings_are: str | None = None
    formula: bool = False
    slash_parts: bool = False
    place_marks: list[str] = field(default_factory=list)
    pairs: list[tuple[int, int]] = field(default_factory=list)
    told: list[Told] = field(default_factory=list)
    numbered: list[int] = field(default_factory=list)
    kind: tuple[str, int] = ("", 0)
    noted: set[Remark] = field(default_factory=set)

    @property
    def language(self) -> str:
        """The language of the text, which is looked for only where a name hangs on it."""
        return self.speech.language

    def remark(self, code: str, message: str, start: int, end: int, other: str = "") -> None:
        """Note what was resolved by convention, once for a place."""
        made = Remark(start, end, code, message, other)
        if made not in self.noted or made not in self.remarks:
            self.noted.add(made)
            self.remarks.append(made)

    def decide(self, code: str, about: str, readings: tuple[str, str], start: int, end: int) -> bool:
        """Tell whether the usual reading of two is taken, and say which and what the other is.

        ``about`` begins the sentence, ``readings`` are the usual one and the other, which a convention can choose.
        """
        usual = code not in self.others
        taken, left = readings if usual else readings[::-1]
        self.remark(code, f"{about} {taken}.", start, end, left)
        return usual

    def is_told(self, start: int, end: int) -> bool:
        """Whether a remark stands over the place."""
        return any(remark.start < end and start < remark.end for remark in self.remarks)

    def fail(self, reason: str, start: int, end: int, expected: tuple[str, ...] = ()) -> InstrumentationError:
        """Return the error to raise for a place that cannot be read."""
        return InstrumentationError(reason, self.text, start, end, expected)

    def written(self, start: int, end: int) -> str:
        """Return a stretch of the text as it was given, on one line."""
        return " ".join(self.text[start:end].split())
