"""The structure tree of a PDF: of which parts a document consists, in which languages, what pictures show.

ISO 32000-1, section 14.8 (tagged PDF). Pages are drawn with each stretch of content under its mark; here the tree that
the marks belong to becomes numbered objects. It has a node for every line of a list, so that they are written as text.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import count
from typing import Any

from catalogue.documents.renderers.characters import printable

Mark = tuple[int, int]
"""The page, from 0, and the number of a stretch of content on it."""


class Element:
    """A node of the structure tree; ``kids`` are nodes, or marks of content, ``more`` what it says besides its role."""

    __slots__ = ("kids", "more", "role")

    def __init__(self, role: str, more: str = "") -> None:
        self.role = role
        self.more = more
        self.kids: list[Element | Mark] = []

    def add(self, role: str, *, language: str = "", alternative: str = "", scope: str = "") -> Element:
        child = Element(role, more(language, alternative, scope) if language or alternative or scope else "")
        self.kids.append(child)
        return child


@lru_cache(4000)
def more(language: str = "", alternative: str = "", scope: str = "") -> str:
    """What an element says besides its role: its language, what it shows in words, what it is the head of."""
    said = f"/Lang{text_string(language)}" if language else ""
    said += f"/Alt{text_string(alternative)}" if alternative else ""
    return said + (f"/A<</O/Table/Scope/{scope}>>" if scope else "")


class Tree:
    """The tree as numbered objects from ``first`` on, and for each page which node its marks belong to.

    Nodes are told level by level, so that the nodes below one have numbers that follow one another.
    """

    def __init__(self, pages: Sequence[int], first: int) -> None:
        self.pages = pages
        self.root, self.owning, self.top = range(first, first + 3)
        self.nodes: list[Element] = []
        self.parents: list[int] = []
        self.owners: list[dict[int, int]] = [{} for _ in pages]

    def objects(self, tree: Element) -> dict[int, str]:
        """What the root says, whose number is the first, then all below it."""
        told = dict(enumerate(self.told(tree), self.top))
        owners = [" ".join([f"{page[mark]} 0 R" for mark in sorted(page)]) for page in self.owners]
        nums = " ".join([f"{number}[{page}]" for number, page in enumerate(owners)])
        beside = f"/ParentTree {self.owning} 0 R/ParentTreeNextKey {len(self.pages)}"
        root = f"<</Type/StructTreeRoot/K {self.top} 0 R{beside}>>"
        return {self.root: root, self.owning: f"<</Nums[{nums}]>>", **told}

    def told(self, tree: Element) -> Iterator[str]:
        """What the nodes say; of most that one stretch of content is theirs."""
        self.nodes, self.parents = [tree], [self.root]
        pages = [f"/Pg {page} 0 R/K[" for page in self.pages]
        for number, element, parent in zip(count(self.top), self.nodes, self.parents):  # they grow
            kids = element.kids
            if len(kids) == 1 and type(kids[0]) is tuple:
                page, mark = kids[0]
                self.owners[page][mark] = number
                own = f"{pages[page]}{mark}]"
            else:
                own = self.several(kids, number)
            yield f"<</Type/StructElem/S/{element.role}/P {parent} 0 R{element.more}{own}>>"

    def several(self, kids: list[Element | Mark], parent: int) -> str:
        """Nodes by their number; content by its mark alone, where it is all on the page that is named beside."""
        if set(map(type, kids)) == {Element}:
            return f"/K[{' '.join([f'{one} 0 R' for one in self.all_below(kids, parent)])}]"
        pages = {kid[0] for kid in kids if isinstance(kid, tuple)}
        own = pages.pop() if len(pages) == 1 else None
        told = [self.content(kid, parent, own) if isinstance(kid, tuple) else self.below(kid, parent) for kid in kids]
        beside = "" if own is None else f"/Pg {self.pages[own]} 0 R"
        return f"{beside}/K[{' '.join(told)}]"

    def all_below(self, kids: list[Any], parent: int) -> range:
        """The numbers of nodes that are told when those before them are."""
        first = self.top + len(self.nodes)
        self.nodes += kids
        self.parents += [parent] * len(kids)
        return range(first, first + len(kids))

    def below(self, element: Element, parent: int) -> str:
        """A node that is told when those before it are."""
        self.nodes.append(element)
        self.parents.append(parent)
        return f"{self.top + len(self.nodes) - 1} 0 R"

    def content(self, mark: Mark, parent: int, own: int | None) -> str:
        """A stretch of content, noted as its page's; with its page, unless that is the node's ``own``."""
        page, number = mark
        self.owners[page][number] = parent
        return str(number) if page == own else f"<</Type/MCR/Pg {self.pages[page]} 0 R/MCID {number}>>"


def text_string(text: str) -> str:
    """A text as it stands in a dictionary (ISO 32000-1, section 7.9.2.2), in UTF-16."""
    return f"<FEFF{printable(text).encode('utf-16-be').hex()}>"
