"""Small MusicXML scores for tests, written from a line for each bar."""

from __future__ import annotations

import zipfile
from io import BytesIO

QUARTER = "<note><rest/><duration>2</duration></note>"
METRE = "<attributes><divisions>2</divisions><time><beats>{}</beats><beat-type>{}</beat-type></time></attributes>"
FORWARD = '<barline location="left"><repeat direction="forward"/></barline>'
BACKWARD = '<barline><repeat direction="backward"/></barline>'
FINAL = "<barline><bar-style>light-heavy</bar-style></barline>"


def sound(**attributes: str) -> str:
    """Return a direction with what it does to the playing."""
    listed = "".join(f' {name}="{value}"' for name, value in attributes.items())
    return f"<direction><direction-type><words/></direction-type><sound{listed}/></direction>"


def words(text: str, *signs: str) -> str:
    drawn = "".join(f"<direction-type><{sign}/></direction-type>" for sign in signs)
    said = f"<direction-type><words>{text}</words></direction-type>" if text else ""
    return f"<direction>{drawn}{said}</direction>"


def metronome(unit: str, minute: str, dots: int = 0) -> str:
    marks = f"<beat-unit>{unit}</beat-unit>" + "<beat-unit-dot/>" * dots + f"<per-minute>{minute}</per-minute>"
    return f"<direction><direction-type><metronome>{marks}</metronome></direction-type></direction>"


def ending(number: str, closes: bool = True, repeats: bool = False) -> tuple[str, str]:
    """Return the bar lines at the beginning and the end of an ending of one bar."""
    begins = f'<barline location="left"><ending number="{number}" type="start"/></barline>'
    back = '<repeat direction="backward"/>' if repeats else ""
    return begins, f'<barline><ending number="{number}" type="{"stop" if closes else "discontinue"}"/>{back}</barline>'


def bar(*before: str, quarters: int = 4, after: str = "") -> str:
    return "".join(before) + QUARTER * quarters + after


def part_list(*parts: str) -> str:
    """Return the list of parts; a part is its name, or the inside of its ``score-part`` where it begins with "<"."""
    inside = (one if one.startswith("<") else f"<part-name>{one}</part-name>" for one in parts)
    listed = "".join(f'<score-part id="P{number}">{one}</score-part>' for number, one in enumerate(inside, start=1))
    return f"<part-list>{listed}</part-list>"


def score(*bars: str, parts: tuple[str, ...] = ("Flute",), head: str = "", metre: tuple[int, int] = (4, 4)) -> bytes:
    """Return a partwise score whose parts all have these bars."""
    measures = "".join(
        f'<measure number="{number}">{METRE.format(*metre) if number == 1 else ""}{one}</measure>'
        for number, one in enumerate(bars, start=1)
    )
    bodies = "".join(f'<part id="P{number}">{measures}</part>' for number in range(1, len(parts) + 1))
    return f"<score-partwise>{head}{part_list(*parts)}{bodies}</score-partwise>".encode()


def compressed(content: bytes, name: str = "music.xml", container: bool = True) -> bytes:
    """Return a score in a compressed container."""
    packed = BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        if container:
            root = f'<container><rootfiles><rootfile full-path="{name}"/></rootfiles></container>'
            archive.writestr("META-INF/container.xml", root)
        archive.writestr(name, content)
    return packed.getvalue()
