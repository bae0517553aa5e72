"""The structure tree of a PDF: of which parts a document consists, in which languages, what pictures show.

ISO 32000-1, section 14.8 (tagged PDF). Pages are drawn with each stretch of content under its mark; here the tree that
the marks belong to becomes numbered objects. It has a node for every line of a list, so that they are written as text.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from catalogue.documents.renderers.characters import printable

Mark = tuple[int, int]
"""The page, from 0, and the number of a stretch of content on it."""


@dataclass(eq=False, slots=True)
class Element:
    """A node of the structure tree; ``kids`` are nodes, or marks of content."""

    role: str
    language: str = ""
    alternative: str = ""
    scope: str = ""
    kids: list[Element | Mark] = field(default_factory=list)

    def add(self, role: str, *, language: str = "", alternative: str = "", scope: str = "") -> Element:
        child = Element(role, language, alternative, scope)
        self.kids.append(child)
        return child


class Tree:
    """The tree as numbered objects from ``first`` on, and for each page which node its marks belong to."""

    def __init__(self, pages: Sequence[int], first: int) -> None:
        self.pages = pages
        self.first = first
        self.said: list[str] = []
        self.owners: list[list[int]] = [[] for _ in pages]

    def place(self) -> int:
        """The number of an object that is told later."""
        self.said.append("")
        return self.first + len(self.said) - 1

    def tell(self, number: int, said: str) -> None:
        self.said[number - self.first] = f"<<{said}>>"

    def objects(self) -> dict[int, bytes]:
        return {self.first + place: said.encode("ascii") for place, said in enumerate(self.said)}

    def add_root(self, tree: Element) -> int:
        """The number of the root, when it and all below it are told."""
        root, parents = self.place(), self.place()
        top = self.node(tree, root)
        said = f"/Type/StructTreeRoot/K {top} 0 R/ParentTree {parents} 0 R"
        self.tell(root, f"{said}/ParentTreeNextKey {len(self.pages)}")
        owners = (" ".join(f"{owner} 0 R" for owner in page) for page in self.owners)
        self.tell(parents, f"/Nums[{' '.join(f'{number}[{page}]' for number, page in enumerate(owners))}]")
        return root

    def node(self, element: Element, parent: int) -> int:
        number = self.place()
        said = f"/Type/StructElem/S/{element.role}/P {parent} 0 R"
        if element.language:
            said += f"/Lang{text_string(element.language)}"
        if element.alternative:
            said += f"/Alt{text_string(element.alternative)}"
        if element.scope:
            said += f"/A<</O/Table/Scope/{element.scope}>>"
        self.tell(number, said + self.kids(element.kids, number))
        return number

    def kids(self, kids: list[Element | Mark], parent: int) -> str:
        """Nodes by their number; content by its mark alone, where it is all on the page that is named beside."""
        marks = [kid for kid in kids if not isinstance(kid, Element)]
        pages = {page for page, _mark in marks}
        own = pages.pop() if len(pages) == 1 else None
        told = [
            f"{self.node(kid, parent)} 0 R" if isinstance(kid, Element) else self.content(kid, parent, own)
            for kid in kids
        ]
        beside = "" if own is None else f"/Pg {self.pages[own]} 0 R"
        return f"{beside}/K[{' '.join(told)}]"

    def content(self, mark: Mark, parent: int, own: int | None) -> str:
        """A stretch of content, noted as its page's; with its page, unless that is the node's ``own``."""
        page, number = mark
        owners = self.owners[page]
        owners += [parent] * (number + 1 - len(owners))
        owners[number] = parent
        return str(number) if page == own else f"<</Type/MCR/Pg {self.pages[page]} 0 R/MCID {number}>>"


def text_string(text: str) -> str:
    """A text as it stands in a dictionary (ISO 32000-1, section 7.9.2.2), in UTF-16."""
    return f"<FEFF{printable(text).encode('utf-16-be').hex()}>"
