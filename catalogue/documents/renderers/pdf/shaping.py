"""A text of one face as glyphs, which HarfBuzz chooses and places."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import uharfbuzz as hb

from catalogue.documents.renderers.pdf.faces import Face


@dataclass(frozen=True, slots=True)
class Glyph:
    """One glyph with what it stands for; lengths in thousandths of the size."""

    id: int
    advance: float
    x: float
    y: float
    source: str


@lru_cache(40000)
def shape(text: str, face: Face, right_to_left: bool) -> tuple[Glyph, ...]:
    """The glyphs of a text in one face, from left to right; the first of a cluster carries the cluster's text."""
    buffer = hb.Buffer()
    buffer.cluster_level = hb.BufferClusterLevel.MONOTONE_CHARACTERS
    buffer.add_str(text)
    buffer.guess_segment_properties()
    buffer.direction = "rtl" if right_to_left else "ltr"
    hb.shape(face.font, buffer, {"kern": True, "liga": True})
    sources = cluster_texts(text, [info.cluster for info in buffer.glyph_infos], right_to_left)
    return tuple(
        Glyph(
            info.codepoint,
            face.thousandths(position.x_advance),
            face.thousandths(position.x_offset),
            face.thousandths(position.y_offset),
            source,
        )
        for info, position, source in zip(buffer.glyph_infos, buffer.glyph_positions, sources, strict=True)
    )


def cluster_texts(text: str, clusters: list[int], right_to_left: bool) -> list[str]:
    """What each glyph stands for: the whole cluster for its first glyph in reading order, nothing for the others."""
    starts = sorted(set(clusters))
    ends = dict(zip(starts, [*starts[1:], len(text)], strict=True))
    sources = [""] * len(clusters)
    seen: set[int] = set()
    order = range(len(clusters) - 1, -1, -1) if right_to_left else range(len(clusters))
    for place in order:
        cluster = clusters[place]
        if cluster not in seen:
            sources[place] = text[cluster : ends[cluster]]
            seen.add(cluster)
    return sources
