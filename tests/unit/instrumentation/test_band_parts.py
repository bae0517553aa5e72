"""Parts of wind bands, which several players share (common practice of bands)."""

from __future__ import annotations

import pytest

from catalogue.instrumentation import read


@pytest.mark.parametrize(
    "text",
    [
        "concert band: 3 clarinets in B-flat I, II, III, 2 horns, tuba",
        "for symphonic band: piccolo, 2 flutes, oboe, 3 clarinets, 4 horns, tuba",
        "Blasorchester: Fl 1, Fl 2, Ob, Kl 1, Kl 2, Kl 3, Hn 1, Hn 2, Tuba",
        "orchestre d'harmonie: flûtes 1, 2, hautbois, clarinettes 1, 2, 3, cors 1, 2, tuba",
        "orchestra di fiati: 2 flauti, oboe, 3 clarinetti, 2 corni, tuba",
        "orquesta de vientos: 2 flautas, oboe, 3 clarinetes, 2 trompas, tuba",
        "Flute 1, Flute 2, Clarinet 1, Clarinet 2, Alto Sax 1, Alto Sax 2, Trumpet 1, Trumpet 2, Horn 1, Horn 2, Tuba",
    ],
)
def test_parts_of_a_band_are_told(text: str) -> None:
    assert "band-parts" in [remark.code for remark in read(text).warnings]


@pytest.mark.parametrize(
    "text",
    [
        "wind ensemble: 2 flutes, 2 oboes, 3 clarinets",
        "flute and concert band",
        "wind band",
        "2.2.2.2 – 4.2.3.1 – timp",
    ],
)
def test_other_winds_are_one_to_a_part(text: str) -> None:
    assert "band-parts" not in [remark.code for remark in read(text).warnings]
