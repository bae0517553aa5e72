"""Where what a heading said of roles ends: at its marks, at a dash before other players, at a stop before figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.phrases import count_at, token_at

if TYPE_CHECKING:
    from catalogue.instrumentation.scanning import Scan

ON_STAGE_AGAIN = "–"


def ends_role(scan: Scan, at: int) -> bool:
    """Whether the mark at a place ends the role under which the items before it were put."""
    written = getattr(scan.nodes[at], "text", "")
    return written in scan.scope.role_ends or dash_ends(scan, at) or stop_ends(scan, at) or slash_ends(scan, at)


def slash_ends(scan: Scan, at: int) -> bool:
    """Whether a slash between families ends a list of soloists before figures, ``soli: vn, vc / 2.2.2.2 / …``."""
    node, following = token_at(scan.nodes, at), token_at(scan.nodes, at + 1)
    parting = node is not None and node.is_mark("/") and scan.slash_parts and scan.scope.role == "soloist"
    return parting and following is not None and following.kind == "number" and name_at(scan.nodes, at + 2) is None


def dash_ends(scan: Scan, at: int) -> bool:
    """Whether a dash with blanks ends what a heading said of roles: it does, except before bare figures."""
    node, following = token_at(scan.nodes, at), token_at(scan.nodes, at + 1)
    if ON_STAGE_AGAIN not in scan.scope.role_ends or node is None or not node.is_mark("-") or not node.spaced:
        return False
    if scan.last is None or following is None or following.kind != "number" or not scan.last.figure:
        return scan.last is not None
    return scan.scope.role == "soloist" or name_at(scan.nodes, at + 2) is not None


def stop_ends(scan: Scan, at: int) -> bool:
    """Whether a full stop ends what a heading said, before figures (``Solo: vn. 2.2.2.2``) or in a list of commas."""
    following, last = token_at(scan.nodes, at + 1), scan.last
    if not scan.nodes[at].is_mark(".") or following is None or not following.spaced or last is None:
        return False
    if scan.scope.role == "offstage" and last.separator in (",", "&", ",&"):
        return count_at(scan.nodes, at + 1) is not None or name_at(scan.nodes, at + 1) is not None
    return scan.scope.role == "soloist" and following.kind == "number"
