"""The PDF file itself: pages, embedded faces, outline, structure tree, metadata. The same pages give the same bytes.

ISO 32000-1: composite fonts (9.7), ToUnicode (9.10.3), outline (12.3.3), tagged PDF (14.8). Every face is embedded as
a subset; glyphs keep their numbers, so that a code in the text is a glyph.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from io import BytesIO

import pikepdf
from pikepdf import Array, Dictionary, Name, String

from catalogue.documents.renderers.characters import printable
from catalogue.documents.renderers.pdf.canvas import Canvas, Element, Fonts, Used
from catalogue.documents.sheets.paper import Size

FIXED = "2000-01-01T00:00:00Z"
"""The date that the file bears: what dates a document is printed on it."""

Mark = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Bookmark:
    """An entry of the outline: where a section begins, ``y`` from the top of the page."""

    title: str
    page: int
    y: float


@dataclass(frozen=True, slots=True)
class Properties:
    title: str
    author: str
    language: str


def pdf_bytes(
    canvases: list[Canvas], size: Size, fonts: Fonts, tree: Element, bookmarks: list[Bookmark], properties: Properties
) -> bytes:
    pdf = pikepdf.new()
    resources = pdf.make_indirect(Dictionary(Font=font_resources(pdf, fonts)))
    for canvas in canvases:
        add_page(pdf, canvas, size, resources)
    add_structure(pdf, tree)
    add_outline(pdf, bookmarks, size)
    add_properties(pdf, properties)
    written = BytesIO()
    pdf.save(
        written,
        deterministic_id=True,
        compress_streams=True,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
    )
    return written.getvalue()


def add_page(pdf: pikepdf.Pdf, canvas: Canvas, size: Size, resources: pikepdf.Object) -> None:
    page = Dictionary(
        Type=Name.Page,
        MediaBox=Array([0, 0, round(size.width, 3), round(size.height, 3)]),
        Resources=resources,
        Contents=pdf.make_stream("\n".join(canvas.code).encode("ascii")),
        Tabs=Name.S,
        StructParents=canvas.number,
    )
    pdf.pages.append(pikepdf.Page(pdf.make_indirect(page)))


# ---- faces


def font_resources(pdf: pikepdf.Pdf, fonts: Fonts) -> Dictionary:
    return Dictionary({f"/{used.name}": composite_font(pdf, used) for used in fonts.used.values()})


def composite_font(pdf: pikepdf.Pdf, used: Used) -> pikepdf.Object:
    name = Name(f"/LEDGER+{used.face.name}")
    descendant = Dictionary(
        Type=Name.Font,
        Subtype=Name.CIDFontType0 if used.face.compact else Name.CIDFontType2,
        BaseFont=name,
        CIDSystemInfo=Dictionary(Registry=String("Adobe"), Ordering=String("Identity"), Supplement=0),
        FontDescriptor=pdf.make_indirect(descriptor(pdf, used, name)),
        DW=0,
        W=widths(used),
    )
    if not used.face.compact:
        descendant.CIDToGIDMap = Name.Identity
    return pdf.make_indirect(
        Dictionary(
            Type=Name.Font,
            Subtype=Name.Type0,
            BaseFont=name,
            Encoding=Name("/Identity-H"),
            DescendantFonts=Array([pdf.make_indirect(descendant)]),
            ToUnicode=pdf.make_stream(to_unicode(used.sources).encode("ascii")),
        )
    )


def descriptor(pdf: pikepdf.Pdf, used: Used, name: Name) -> Dictionary:
    face = used.face
    extents = face.font.get_font_extents("ltr")
    described = Dictionary(
        Type=Name.FontDescriptor,
        FontName=name,
        Flags=4 | (64 if face.slanted else 0),
        FontBBox=Array([round(corner) for corner in face.box]),
        ItalicAngle=-12 if face.slanted else 0,
        Ascent=round(face.thousandths(extents.ascender)),
        Descent=round(face.thousandths(extents.descender)),
        CapHeight=714,
        StemV=80,
    )
    program = face.subset(set(used.sources))
    if face.compact:
        described.FontFile3 = pdf.make_stream(program, Subtype=Name.OpenType)
    else:
        described.FontFile2 = pdf.make_stream(program, Length1=len(program))
    return described


def widths(used: Used) -> Array:
    """The advance of every glyph in use, one short run each."""
    found: list[object] = []
    for glyph in sorted(used.sources):
        found += [glyph, Array([round(used.face.width(glyph), 2)])]
    return Array(found)


def to_unicode(sources: dict[int, str]) -> str:
    """The map from glyphs back to text; a glyph that only completes a cluster stands for nothing."""
    pairs = [f"<{glyph:04X}> <{source.encode('utf-16-be').hex().upper()}>" for glyph, source in sorted(sources.items())]
    blocks = [pairs[start : start + 100] for start in range(0, len(pairs), 100)]
    body = "\n".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap "
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def "
        "/CMapName /Adobe-Identity-UCS def /CMapType 2 def\n"
        f"1 begincodespacerange <0000> <FFFF> endcodespacerange\n{body}\n"
        "endcmap CMapName currentdict /CMap defineresource pop end end"
    )


# ---- structure


def add_structure(pdf: pikepdf.Pdf, tree: Element) -> None:
    """The tree of what the document consists of, and for each page which node its marks belong to."""
    root = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
    owners: dict[int, dict[int, pikepdf.Object]] = {}
    root.K = node(pdf, tree, root, owners)
    numbers: list[object] = []
    for page in sorted(owners):
        marks = owners[page]
        numbers += [page, pdf.make_indirect(Array([marks[mark] for mark in sorted(marks)]))]
    root.ParentTree = pdf.make_indirect(Dictionary(Nums=Array(numbers)))
    root.ParentTreeNextKey = len(pdf.pages)
    pdf.Root.StructTreeRoot = root
    pdf.Root.MarkInfo = Dictionary(Marked=True)


def node(
    pdf: pikepdf.Pdf, element: Element, parent: pikepdf.Object, owners: dict[int, dict[int, pikepdf.Object]]
) -> pikepdf.Object:
    made = pdf.make_indirect(Dictionary(Type=Name.StructElem, S=Name(f"/{element.role}"), P=parent))
    if element.language:
        made.Lang = String(element.language)
    if element.alternative:
        made.Alt = String(element.alternative)
    if element.scope:
        made.A = Dictionary(O=Name.Table, Scope=Name(f"/{element.scope}"))
    made.K = Array([kid_of(pdf, kid, made, owners) for kid in element.kids])
    return made


def kid_of(
    pdf: pikepdf.Pdf,
    kid: Element | Mark,
    parent: pikepdf.Object,
    owners: dict[int, dict[int, pikepdf.Object]],
) -> pikepdf.Object:
    if isinstance(kid, Element):
        return node(pdf, kid, parent, owners)
    page, mark = kid
    owners.setdefault(page, {})[mark] = parent
    return Dictionary(Type=Name.MCR, Pg=pdf.pages[page].obj, MCID=mark)


# ---- outline and properties


def add_outline(pdf: pikepdf.Pdf, bookmarks: Iterable[Bookmark], size: Size) -> None:
    with pdf.open_outline() as outline:
        for bookmark in bookmarks:
            destination = Array([pdf.pages[bookmark.page].obj, Name.XYZ, 0, round(size.height - bookmark.y + 20, 2), 0])
            outline.root.append(pikepdf.OutlineItem(printable(bookmark.title), destination))


def add_properties(pdf: pikepdf.Pdf, properties: Properties) -> None:
    title, author = printable(properties.title), printable(properties.author)
    pdf.Root.Lang = String(properties.language)
    pdf.Root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
    pdf.docinfo["/Title"] = String(title)
    pdf.docinfo["/Author"] = String(author)
    with pdf.open_metadata(set_pikepdf_as_editor=False) as metadata:
        metadata["dc:title"] = title
        metadata["dc:creator"] = [author]
        metadata["dc:language"] = [properties.language]
        metadata["xmp:CreateDate"] = FIXED
