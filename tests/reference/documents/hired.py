"""The facts that the expected papers of hires are made from: one set that came back short, one that is still out.

Periods and charges are those that lenders publish: two weeks after the last performance, ten per cent of the fee for
each week that a set is late, a price for each part that is missing (common practice). Names are invented.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal

from catalogue.documents.contents.delivery_note import delivery_note
from catalogue.documents.contents.hire_checks import arrival_check, return_check
from catalogue.documents.contents.hire_statement import Period, hire_statement
from catalogue.documents.contents.missing_parts_letter import missing_parts_letter
from catalogue.documents.contents.parts_checklist import Hire as Loan
from catalogue.documents.contents.parts_checklist import parts_checklist
from catalogue.documents.model import Document, Paper
from catalogue.facts import ComposerFacts
from catalogue.instrumentation import read
from catalogue.instrumentation.parts import Part, part_list
from catalogue.rules.hires.making_up import copy_numbers, rows_of, set_of, things_of
from catalogue.rules.hires.terms import Hire, Item, Terms
from catalogue.terms import Category
from catalogue.terms.hires import LateStep, PartAction, PartCondition, Purpose
from catalogue.timing import Duration, PartialDate
from tests.fact_makers import make_event, make_venue, make_work

TODAY = date(2026, 7, 1)
COMPOSER = ComposerFacts(id=1, slug="ada-quill", name="Ada Quill", sort_name="Quill, Ada", email="ada@quill.example")
FORCES = read("2(II=picc).0.2.0 – 2.0.0.0 – timp.perc(1) – hp – str")
WORK = make_work(7, "Towpath", category=Category.ORCHESTRA, duration=Duration(1260), instrumentation=FORCES)
EVENINGS = tuple(
    make_event(number, PartialDate(2026, 5, day), venue=make_venue("Weavers’ Hall", city="Leeds"), city="Leeds")
    for number, day in ((1, 16), (2, 17))
)
TERMS = Terms(
    name="Orchestral sets",
    lender="Slipway Editions",
    address="Hire library, 4 Ropewalk\nSpecimen Quay",
    email="hire@slipway.example",
    late_percent=Decimal(10),
    late_step=LateStep.WEEK,
    part_charge=Decimal("35.00"),
    score_charge=Decimal("60.00"),
    erasing_rate=Decimal("18.00"),
)


def items(parts: tuple[Part, ...], **counted: dict[str, object]) -> tuple[Item, ...]:
    """The rows of a list, as many copies back as went out unless it is told otherwise by the number of the part."""
    rows = (
        Item(number, part, expected=part.copies, copy_numbers=copy_numbers(part.copies), sent=part.copies)
        for number, part in enumerate(parts, start=1)
    )
    return tuple(replace(row, **counted.get(f"no{row.part.label}", {})) for row in rows if row.part is not None)


PARTS = rows_of(part_list(FORCES, (8, 6, 4, 4, 2)))
OUT = Hire(
    id=1,
    number="2026-017",
    purpose=Purpose.HIRE,
    work=7,
    hirer="Orchestra of the Two Bells",
    attention="Petra Wynmoor, librarian",
    address="Music library, 9 Bell Lane\nBristol, United Kingdom",
    order="OTB 88/26",
    set_number="2",
    edition="SE 40b",
    paper="A3",
    errata_on=PartialDate(2026, 2, 1),
    out_on=date(2026, 3, 2),
    due_on=date(2026, 6, 5),
    carrier="traced post, one parcel",
    enclosed="return label",
    fee=Decimal("180.00"),
    currency="EUR",
    performances=EVENINGS,
    items=(*items(PARTS), Item(40, name="Errata list", sent=1)),
    terms=TERMS,
)
FULL = tuple(replace(item, back=item.out) for item in OUT.items)
SHORT = {
    2: {"condition": PartCondition.MARKED, "action": PartAction.ERASE, "remark": "coloured pencil"},
    11: {"back": 3, "condition": PartCondition.MISSING, "action": PartAction.ASK},
}
BACK = replace(
    OUT,
    back_on=date(2026, 6, 13),
    erasing_hours=Decimal("1.5"),
    paid=Decimal("180.00"),
    items=tuple(replace(item, **SHORT.get(item.id, {})) for item in FULL),
)
GAP = replace(OUT, items=tuple(replace(item, received=item.out - (item.id == 11)) for item in OUT.items))
PACKED = replace(OUT, items=tuple(replace(item, sent=0) if item.id in (3, 10) else item for item in OUT.items))
"""Without the second flute and the harp."""
PLANNED = replace(
    OUT, id=2, number="2026-018", hirer="Harbour Band", out_on=date(2026, 6, 20), due_on=date(2026, 8, 1), fee=None,
    performances=(),
)  # fmt: skip
ABROAD = replace(
    OUT, id=3, number="2026-011", hirer="Low Bridge Symphony", out_on=date(2026, 1, 5), due_on=date(2026, 2, 1),
    back_on=date(2026, 1, 30), currency="USD", fee=Decimal("240.00"), performances=(),
)  # fmt: skip


def paper_of(build: Callable[..., Document], hire: Hire, language: str = "en-GB") -> Document:
    paper = Paper.LETTER if language == "en-US" else Paper.A4
    return build(hire, WORK, COMPOSER, language=language, paper=paper, printed_on=TODAY)


def checklist(hire: Hire) -> Document:
    loan = Loan(
        hire.hirer, hire.set_number, hire.out_on, hire.due, hire.carrier, (8, 6, 4, 4, 2), things_of(hire.items)
    )
    setting = {"language": "en-GB", "paper": Paper.A4, "printed_on": TODAY}
    return parts_checklist(
        WORK, COMPOSER, performances=hire.performances, hire=loan, made_up=set_of(hire.items), **setting
    )


def statement(*hires: Hire, period: Period | None = None, language: str = "en-GB") -> Document:
    setting = {"language": language, "paper": Paper.A4, "printed_on": TODAY}
    return hire_statement(hires, {7: WORK}, COMPOSER, period=period, **setting)


HIRED: dict[str, Callable[[], Document]] = {
    "delivery-note": lambda: paper_of(delivery_note, OUT),
    "delivery-note-american": lambda: paper_of(delivery_note, OUT, "en-US"),
    "delivery-note-without-two-parts": lambda: paper_of(delivery_note, PACKED),
    "parts-of-a-hire-without-two": lambda: checklist(PACKED),
    "delivery-note-for-perusal": lambda: paper_of(
        delivery_note, replace(OUT, purpose=Purpose.PERUSAL, items=OUT.items[:1], performances=())
    ),
    "delivery-note-made-anew": lambda: paper_of(delivery_note, BACK),
    "arrival-check": lambda: paper_of(arrival_check, OUT),
    "arrival-check-with-a-gap": lambda: paper_of(arrival_check, GAP),
    "return-check": lambda: paper_of(return_check, OUT),
    "return-check-counted": lambda: paper_of(return_check, BACK),
    "missing-parts-letter": lambda: paper_of(missing_parts_letter, BACK),
    "missing-parts-letter-german": lambda: paper_of(missing_parts_letter, BACK, "de"),
    "missing-parts-letter-on-arrival": lambda: paper_of(missing_parts_letter, GAP),
    "hire-statement": lambda: statement(BACK),
    "hire-statement-while-out": lambda: statement(OUT),
    "hire-statement-of-a-period": lambda: statement(
        ABROAD, BACK, PLANNED, period=Period(date(2026, 1, 1), date(2026, 12, 31))
    ),
}
