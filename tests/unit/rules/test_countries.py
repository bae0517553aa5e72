from __future__ import annotations

from babel import Locale

from catalogue.rules.countries import COUNTRIES, is_country

# Two-letter territories of the Unicode CLDR that are no officially assigned code elements of ISO 3166-1: exceptional
# reservations, groupings, and codes for tests and for what is unknown.
NO_COUNTRIES = {"AC", "CP", "CQ", "DG", "EA", "EU", "EZ", "IC", "QO", "TA", "UN", "XA", "XB", "ZZ"}


def test_countries_are_the_territories_of_cldr_that_iso_has_assigned() -> None:
    territories = {code for code in Locale("en").territories if len(code) == 2 and code.isalpha()}

    assert set(COUNTRIES) == territories - NO_COUNTRIES
    assert len(COUNTRIES - {"XK"}) == 249


def test_united_kingdom_is_gb() -> None:
    assert (is_country("GB"), is_country("UK")) == (True, False)
