"""Tables: lists of two lines a row under a year, and ruled forms with boxes to tick."""

from __future__ import annotations

from dataclasses import replace
from operator import attrgetter

from catalogue.documents.model import Cell, Column, Group, Run, Table, Text, from_the_right, plain
from catalogue.documents.renderers.pdf.canvas import Canvas
from catalogue.documents.renderers.pdf.flow import Draw, Item
from catalogue.documents.renderers.pdf.ground import Ground, both, depth
from catalogue.documents.renderers.pdf.setting import SetLine
from catalogue.documents.renderers.pdf.tags import Element
from catalogue.documents.sheets.geometry import ColumnSheet, ListTableSheet, Look, RuledTableSheet

HEAVY, LIGHT = 0.7, 0.35
END = attrgetter("end")


def table_items(table: Table, ground: Ground, parent: Element) -> list[Item]:
    listed = ground.sheet.list_table
    if listed is not None and listed.bare:
        return bare_items(table, listed, ground, parent.add("Table"))
    if listed is not None:
        return list_items(table, listed, ground, parent.add("Table"))
    return ruled_items(table, ground.sheet.ruled_table, ground, parent.add("Table"))


def column_of(columns: dict[str, ColumnSheet], key: str, ground: Ground) -> ColumnSheet:
    """The geometry of a column; the last one ends where the text does."""
    sheet = columns.get(key, ColumnSheet(0, ground.width))
    if sheet.end == ground.width:
        return sheet
    last = max(columns.values(), key=END, default=sheet)
    return replace(sheet, end=ground.width) if sheet == last else sheet


def head_drawing(
    table: Table,
    columns: dict[str, ColumnSheet],
    look: Look,
    rule_below: float,
    ground: Ground,
    row: Element | None,
    rule_x: float = 0,
) -> Draw:
    """The heads of the columns over a heavy rule; without an element, a repetition on a later page.

    A head of several words that is wider than its column stands in several lines, the last one on the baseline.
    """
    geometry = [column_of(columns, one.key, ground) for one in table.columns]
    heads = [head_lines(one.head, geometry[place], look, ground) for place, one in enumerate(table.columns)]
    placed = list(zip(geometry, heads, strict=True))
    cells = [row.add("TH", scope="Column") for _ in placed] if row else []

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        for place, (column, lines) in enumerate(placed):
            with canvas.content(cells[place]) if cells else canvas.artifact():
                for above, line in zip(range(len(lines) - 1, -1, -1), lines, strict=True):
                    put(canvas, line, column, y - above * look.leading, ground)
        with canvas.artifact():
            canvas.rule(ground.left + rule_x, ground.right, y + rule_below, HEAVY)

    return draw


def head_lines(head: Text, column: ColumnSheet, look: Look, ground: Ground) -> tuple[SetLine, ...]:
    """A head in the width of its column, or of its widest word where that is wider."""
    widest = max((ground.line((Run(word),), look).width for word in plain(head).split()), default=0)
    return ground.lines(head, look, max(column.end - column.x, widest))


def put(canvas: Canvas, line: SetLine, column: ColumnSheet, y: float, ground: Ground, place: int = 0) -> None:
    if column.right:
        canvas.text_to(ground.left + column.end, y, line)
    else:
        canvas.text(ground.left + (column.turn if place and column.turn else column.x), y, line)


# ---- lists


def list_items(table: Table, sheet: ListTableSheet, ground: Ground, parent: Element) -> list[Item]:
    told = (table, sheet.columns, sheet.head, sheet.head_rule, ground)
    head = Item(head_drawing(*told, parent.add("TR"), sheet.rule_x), lead=sheet.head_lead, keep=True)
    again = Item(head_drawing(*told, None, sheet.rule_x), lead=0)
    items = [head]
    for place, group in enumerate(table.groups):
        items += list_group(group, table, sheet, ground, parent, again, first=not place)
    return items


def bare_items(table: Table, sheet: ListTableSheet, ground: Ground, parent: Element) -> list[Item]:
    """The rows under a rule, without heads where there are none; a total under a short rule of its own."""
    if any(column.head for column in table.columns):
        return list_items(table, sheet, ground, parent)
    items: list[Item] = []
    for place, group in enumerate(table.groups):
        items += list_group(group, table, sheet, ground, parent, None, first=not place)
    if table.total:
        items[-1] = replace(items[-1], keep=True)
        drawing, deep = list_row(table.total, Group((), ()), table, sheet, ground, parent.add("TR"), labelled=False)
        last = column_of(sheet.columns, table.columns[-1].key, ground)
        items.append(Item(both(drawing, sum_rule(last, sheet, ground)), lead=sheet.row_lead, depth=deep))
    if items:
        items[0] = replace(items[0], draw=both(items[0].draw, rule_below(-sheet.rule_above, HEAVY, ground)))
    return items


def sum_rule(column: ColumnSheet, sheet: ListTableSheet, ground: Ground) -> Draw:
    """A rule over a sum, half as wide as its column."""
    end = ground.left + column.end
    start = end - (column.end - column.x) / 2

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.artifact():
            canvas.rule(start, end, y - sheet.cell.size * 1.05, LIGHT)

    return draw


def list_group(
    group: Group,
    table: Table,
    sheet: ListTableSheet,
    ground: Ground,
    parent: Element,
    again: Item | None,
    *,
    first: bool,
) -> list[Item]:
    """The rows of a year; a short year is kept whole, a long one says its year again on a new page."""
    whole = len(group.rows) <= sheet.whole
    items = []
    for place, row in enumerate(group.rows):
        opens = sheet.first_lead if again else sheet.head_lead
        lead = sheet.row_lead if place else opens if first else sheet.group_lead
        drawing, deep = list_row(row, group, table, sheet, ground, parent.add("TR"), labelled=not place)
        keep = whole and place < len(group.rows) - 1
        items.append(
            Item(
                drawing, lead=lead, depth=deep, keep=keep, again=(again,) if again else (), fresh_lead=sheet.first_lead
            )
        )
    return items


def list_row(
    row: tuple[Cell, ...],
    group: Group,
    table: Table,
    sheet: ListTableSheet,
    ground: Ground,
    parent: Element,
    *,
    labelled: bool,
) -> tuple[Draw, float]:
    label = label_lines(group, sheet, ground)
    drawings = [label_drawing(label, sheet, ground, parent.add("TH", scope="Row"), labelled=labelled)]
    deepest = depth(label, sheet.label.leading) if labelled else 0.0
    for place, (column, cell) in enumerate(zip(table.columns, row, strict=True)):
        geometry = at_its_side(column_of(sheet.columns, column.key, ground), column, cell)
        look = geometry.look or (sheet.cell if place else sheet.title)
        lines = cell_lines(cell, geometry, look, geometry.look or sheet.cell, ground)
        drawings.append(cell_drawing(lines, geometry, sheet.cell.leading, ground, parent.add("TD")))
        deepest = max(deepest, depth(lines, sheet.cell.leading))
    return both(*drawings), deepest


def at_its_side(geometry: ColumnSheet, column: Column, cell: Cell) -> ColumnSheet:
    """The geometry of a cell: running text that reads from right to left ends where its column does."""
    reads = column.by_script and bool(cell.lines) and all(map(from_the_right, cell.lines))
    return replace(geometry, right=True) if reads else geometry


def label_lines(group: Group, sheet: ListTableSheet, ground: Ground) -> tuple[SetLine, ...]:
    """The label of a group, in one line where the sheet does not say where it is turned over."""
    if sheet.label_end:
        return ground.lines(group.label, sheet.label, sheet.label_end)
    return (ground.line(group.label, sheet.label),)


def label_drawing(
    lines: tuple[SetLine, ...], sheet: ListTableSheet, ground: Ground, element: Element, *, labelled: bool
) -> Draw:
    def draw(canvas: Canvas, y: float, fresh: bool) -> None:
        if not (labelled or fresh):
            return
        with canvas.content(element) if labelled else canvas.artifact():
            for place, line in enumerate(lines):
                canvas.text(ground.left, y + place * sheet.label.leading, line)

    return draw


def cell_lines(cell: Cell, column: ColumnSheet, first: Look, rest: Look, ground: Ground) -> tuple[SetLine, ...]:
    found: list[SetLine] = []
    for place, text in enumerate(cell.lines):
        start = column.turn if place and column.turn else column.x
        found += ground.lines(text, rest if place else first, column.end - start)
    return tuple(found)


def cell_drawing(
    lines: tuple[SetLine, ...], column: ColumnSheet, leading: float, ground: Ground, element: Element
) -> Draw:
    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        if lines:
            with canvas.content(element):
                for place, line in enumerate(lines):
                    put(canvas, line, column, y + place * leading, ground, place)

    return draw


# ---- ruled forms


def ruled_items(table: Table, sheet: RuledTableSheet, ground: Ground, parent: Element) -> list[Item]:
    head = Item(
        head_drawing(table, sheet.columns, sheet.head, sheet.head_rule, ground, parent.add("TR")),
        lead=sheet.head_lead,
        tail=sheet.head_rule,
        keep=True,
    )
    repeated = head_drawing(table, sheet.columns, sheet.head, sheet.head_rule, ground, None)
    again = Item(repeated, lead=0, tail=sheet.head_rule)
    items = [head]
    for place, group in enumerate(table.groups):
        ends = bool(table.total) and place == len(table.groups) - 1
        items += [
            replace(item, again=(again,)) for item in family_items(group, table, sheet, ground, parent, ends=ends)
        ]
    if table.total:
        items.append(replace(total_item(table, sheet, ground, parent.add("TR")), again=(again,)))
    return items


def family_items(
    group: Group, table: Table, sheet: RuledTableSheet, ground: Ground, parent: Element, *, ends: bool
) -> list[Item]:
    """A family: its head with three rows below it, or all of fewer than five; the last one stays with the total."""
    rows = [row_item(row, table, sheet, sheet.cell, ground, parent.add("TR")) for row in group.rows]
    kept = [replace(row, keep=sheet.keeps(place, len(rows), ends=ends)) for place, row in enumerate(rows)]
    return [family_head(group, sheet, ground, parent.add("TR")), *kept] if group.label else kept


def family_head(group: Group, sheet: RuledTableSheet, ground: Ground, parent: Element) -> Item:
    line = ground.line(group.label, sheet.family)
    element = parent.add("TH", scope="Row")
    x = ground.left + column_of(sheet.columns, sheet.family_column, ground).x

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(element):
            canvas.text(x, y, line)
        with canvas.artifact():
            canvas.rule(ground.left, ground.right, y + sheet.family_baseline, LIGHT)

    return Item(draw, lead=sheet.row - sheet.family_baseline, tail=sheet.family_baseline, keep=True)


def row_item(
    row: tuple[Cell, ...], table: Table, sheet: RuledTableSheet, look: Look, ground: Ground, parent: Element
) -> Item:
    drawings: list[Draw] = []
    deepest = 0.0
    for column, cell in zip(table.columns, row, strict=True):
        geometry = column_of(sheet.columns, column.key, ground)
        drawing, deep = ruled_cell(cell, geometry, geometry.look or look, sheet, ground, parent.add("TD"))
        drawings.append(drawing)
        deepest = max(deepest, deep)
    drawings.append(rule_below(sheet.baseline + deepest, LIGHT, ground))
    return Item(both(*drawings), lead=sheet.row - sheet.baseline, depth=deepest, tail=sheet.baseline)


def total_item(table: Table, sheet: RuledTableSheet, ground: Ground, parent: Element) -> Item:
    item = row_item(table.total, table, sheet, sheet.total, ground, parent)
    above = rule_below(sheet.baseline - sheet.row, HEAVY, ground)
    return replace(item, draw=both(item.draw, above, rule_below(sheet.baseline, HEAVY, ground)))


def rule_below(offset: float, thick: float, ground: Ground) -> Draw:
    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.artifact():
            canvas.rule(ground.left, ground.right, y + offset, thick)

    return draw


def ruled_cell(
    cell: Cell, column: ColumnSheet, look: Look, sheet: RuledTableSheet, ground: Ground, element: Element
) -> tuple[Draw, float]:
    """A cell with its text, or with boxes to tick, or with a blank to fill in."""
    if cell.boxes:
        rows = (len(cell.boxes) - 1) // sheet.boxes_in_line
        return boxes_drawing(cell.boxes, column, sheet, ground, element), rows * sheet.box_pitch
    if cell.blank:
        return blank_drawing(cell, column, sheet, ground, element), 0
    lines = cell_lines(cell, column, look, look, ground)
    return cell_drawing(lines, column, sheet.head.leading, ground, element), depth(lines, sheet.head.leading)


def boxes_drawing(
    boxes: tuple[str, ...], column: ColumnSheet, sheet: RuledTableSheet, ground: Ground, element: Element
) -> Draw:
    """Boxes in the middle of the row, each with its number, so many to a line."""
    marks = [ground.line(plain_mark(mark), sheet.box_number) for mark in boxes]
    top = sheet.baseline - (sheet.row + sheet.box) / 2

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.content(element):
            for place, mark in enumerate(marks):
                line, across = divmod(place, sheet.boxes_in_line)
                x = ground.left + column.x + across * sheet.box_pitch
                box_top = y + top + line * sheet.box_pitch
                canvas.box(x, box_top, sheet.box, sheet.box_line)
                canvas.text(x + (sheet.box - mark.width) / 2, box_top + sheet.box - 2.3, mark)

    return draw


def plain_mark(mark: str) -> tuple[Run, ...]:
    return (Run(mark),) if mark else ()


def blank_drawing(cell: Cell, column: ColumnSheet, sheet: RuledTableSheet, ground: Ground, element: Element) -> Draw:
    lines = [ground.line(text, sheet.cell) for text in cell.lines]
    x = ground.left + column.x

    def draw(canvas: Canvas, y: float, _fresh: bool) -> None:
        with canvas.artifact():
            canvas.rule(x, x + sheet.blank, y + 2, 0.5)
        with canvas.content(element):
            for line in lines:
                canvas.text(x + sheet.blank + 4, y, line)

    return draw
