"""The file that a drawn document becomes: packed, tagged, the same every time, and whole for another reader."""

from __future__ import annotations

import gc
from io import BytesIO

import pikepdf

from catalogue.documents.collecting import Pause
from catalogue.documents.model import Document, Entry, Opening, Paper, Section, value, wording
from catalogue.documents.renderers.pdf.file import ROW, TOGETHER, table_stream, written
from catalogue.documents.renderers.pdf.pages import render_pdf


def listed(works: int) -> bytes:
    entries = tuple(Entry(value(f"Piece {number}"), details=(wording("for harp"),)) for number in range(works))
    blocks = (Opening(wording("A list"), value("Ada Quill")), Section(wording("Solo"), entries))
    return render_pdf(Document("works-list-by-category", "A <list>", "Ada Quill", "en-GB", Paper.A4, blocks))


def test_objects_fill_several_streams_and_are_all_found_by_another_reader() -> None:
    with pikepdf.open(BytesIO(listed(150))) as pdf:
        titles = [thing for thing in pdf.objects if isinstance(thing, pikepdf.Dictionary) and thing.get("/S") == "/H3"]
        owners = [owner for page in list(pdf.Root.StructTreeRoot.ParentTree.Nums)[1::2] for owner in page]

    assert len(titles) == 150 > TOGETHER / 4
    assert all(str(owner.Type) == "/StructElem" for owner in owners)


def test_every_mark_leads_back_to_the_node_that_has_it() -> None:
    with pikepdf.open(BytesIO(listed(3))) as pdf:
        (page,) = pdf.pages
        owners = list(pdf.Root.StructTreeRoot.ParentTree.Nums)[1]
        marks = [
            int(operands[1].MCID)
            for operands, operator in pikepdf.parse_content_stream(page)
            if str(operator) == "BDC" and "/MCID" in operands[1]
        ]
        told = {
            int(mark): owner for owner in owners if owner.Pg == page.obj for mark in owner.K if isinstance(mark, int)
        }

        assert sorted(marks) == list(range(len(owners)))
        assert all(told[mark] == owners[mark] for mark in marks)


def test_what_the_file_says_of_itself_is_said_in_both_places() -> None:
    with pikepdf.open(BytesIO(listed(1))) as pdf:
        assert {str(key): str(text) for key, text in pdf.docinfo.items()} == {
            "/Title": "A <list>",
            "/Author": "Ada Quill",
            "/Producer": "ReportLab PDF Library",
        }
        with pdf.open_metadata() as metadata:
            assert (metadata["dc:title"], metadata["dc:creator"], metadata["dc:language"]) == (
                "A <list>",
                ["Ada Quill"],
                {"en-GB"},
            )


def test_streams_stand_by_themselves_and_the_rest_is_gathered() -> None:
    objects = {
        1: "<</Type/Catalog/Pages 2 0 R>>",
        2: "<</Type/Pages/Kids[]/Count 0>>",
        3: table_stream("", bytes(ROW.size)),
    }

    file = written(objects, "/Root 1 0 R")

    assert file.count(b" 0 obj\n") == 3  # the stream, the other two together, the table
    with pikepdf.open(BytesIO(file)) as pdf:
        assert int(pdf.Root.Pages.Count) == 0


def test_the_collector_goes_on_when_the_last_document_is_made() -> None:
    pause = Pause()

    with pause.held():
        with pause.held():
            assert not gc.isenabled()
        assert not gc.isenabled()

    assert gc.isenabled()
