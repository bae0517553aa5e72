from __future__ import annotations

import pytest
from babel import Locale
from babel.core import get_global

from catalogue.rules.countries import BY_THREE, COUNTRIES, is_country
from catalogue.rules.states import country_told

# Two-letter territories of the Unicode CLDR that are no officially assigned code elements of ISO 3166-1: exceptional
# reservations, groupings, and codes for tests and for what is unknown.
NO_COUNTRIES = {"AC", "CP", "CQ", "DG", "EA", "EU", "EZ", "IC", "QO", "TA", "UN", "XA", "XB", "ZZ"}


def test_countries_are_the_territories_of_cldr_that_iso_has_assigned() -> None:
    territories = {code for code in Locale("en").territories if len(code) == 2 and code.isalpha()}

    assert set(COUNTRIES) == territories - NO_COUNTRIES
    assert len(COUNTRIES - {"XK"}) == 249


def test_united_kingdom_is_gb() -> None:
    assert (is_country("GB"), is_country("UK")) == (True, False)


def test_codes_of_three_letters_are_those_of_cldr() -> None:
    of_cldr = get_global("territory_aliases")

    assert {code: [two] for code, two in BY_THREE.items()} == {code: of_cldr[code] for code in BY_THREE}
    assert set(BY_THREE.values()) == COUNTRIES


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("de", "DE"), ("uk", "GB"), ("U.K.", "GB"), ("usa", "US"), ("deu", "DE"), ("GBR", "GB"),
        ("the United States", "US"), ("die Schweiz", "CH"), ("l’Autriche", "AT"), ("Großbritannien", "GB"),
        ("Grande-Bretagne", "GB"), ("Gran Bretaña", "GB"), ("England", "GB"), ("Écosse", "GB"),
        ("Northern  Ireland", "GB"), ("GDR", "DD"), ("Atlantis", ""), ("Great Hall", ""), ("xx", ""), ("", ""),
    ],
)  # fmt: skip
def test_a_cell_under_country_is_told_however_it_is_written(text: str, code: str) -> None:
    assert country_told(text) == code
