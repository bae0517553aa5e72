"""What a PDF says beside its pages: of which parts it consists, in which languages, what it is called.

ISO 32000-1, section 14.8 (tagged PDF) and 14.3.2 (XMP metadata). The pages come drawn, each stretch of content under
its mark; here the tree that the marks belong to is added, and what would change from day to day is taken out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from io import BytesIO

import pikepdf
from pikepdf import Array, Dictionary, Name, String

FIXED = "2000-01-01T00:00:00Z"
"""The date that the file bears: what dates a document is printed on it."""
SAID = {"/Title", "/Author", "/Producer"}
"""What the information dictionary is to say."""

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


def tagged(drawn: bytes, tree: Element, language: str) -> bytes:
    """The drawn file with its structure tree and metadata; the same file and tree give the same bytes."""
    written = BytesIO()
    with pikepdf.open(BytesIO(drawn)) as pdf:
        Tree([page.obj for page in pdf.pages], pdf).add(tree)
        add_metadata(pdf, language)
        del pdf.trailer["/ID"]
        pdf.save(
            written,
            deterministic_id=True,
            compress_streams=True,
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
        )
    return written.getvalue()


class Tree:
    """The tree being written, and for each page which node its marks belong to."""

    def __init__(self, pages: Sequence[pikepdf.Object], pdf: pikepdf.Pdf) -> None:
        self.pages = pages
        self.pdf = pdf
        self.owners: list[list[pikepdf.Object]] = [[] for _ in pages]

    def add(self, tree: Element) -> None:
        root = self.pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
        root.K = self.node(tree, root)
        numbers: list[object] = []
        for number, (page, owners) in enumerate(zip(self.pages, self.owners, strict=True)):
            page.StructParents = number
            page.Tabs = Name.S
            numbers += [number, self.pdf.make_indirect(Array(owners))]
        root.ParentTree = self.pdf.make_indirect(Dictionary(Nums=Array(numbers)))
        root.ParentTreeNextKey = len(self.pages)
        self.pdf.Root.StructTreeRoot = root
        self.pdf.Root.MarkInfo = Dictionary(Marked=True)

    def node(self, element: Element, parent: pikepdf.Object) -> pikepdf.Object:
        made = self.pdf.make_indirect(Dictionary(Type=Name.StructElem, S=Name(f"/{element.role}"), P=parent))
        if element.language:
            made.Lang = String(element.language)
        if element.alternative:
            made.Alt = String(element.alternative)
        if element.scope:
            made.A = Dictionary(O=Name.Table, Scope=Name(f"/{element.scope}"))
        made.K = Array([self.kid(kid, made) for kid in element.kids])
        return made

    def kid(self, kid: Element | Mark, parent: pikepdf.Object) -> pikepdf.Object:
        if isinstance(kid, Element):
            return self.node(kid, parent)
        page, mark = kid
        owners = self.owners[page]
        owners += [parent] * (mark + 1 - len(owners))
        owners[mark] = parent
        return Dictionary(Type=Name.MCR, Pg=self.pages[page], MCID=mark)


def add_metadata(pdf: pikepdf.Pdf, language: str) -> None:
    for key in set(map(str, pdf.docinfo)) - SAID:
        del pdf.docinfo[key]
    with pdf.open_metadata(set_pikepdf_as_editor=False) as metadata:
        metadata["dc:title"] = str(pdf.docinfo["/Title"])
        metadata["dc:creator"] = [str(pdf.docinfo["/Author"])]
        metadata["dc:language"] = [language]
        metadata["pdf:Producer"] = str(pdf.docinfo["/Producer"])
        metadata["xmp:CreateDate"] = FIXED
