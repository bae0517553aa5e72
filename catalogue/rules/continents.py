"""On which continent a country lies, for firsts that are told by continent.

Source: the United Nations' standard country or area codes for statistical use (M49), whose regions these are, with the
Americas parted in two as concert life does (common practice: Central America and the Caribbean go with the north).
Countries that lie on two continents are left out, so that nothing is claimed for either.
"""

from __future__ import annotations

CONTINENTS = {
    "Africa": "AO BF BI BJ BW CD CF CG CI CM CV DJ DZ ER ET GA GH GM GN GQ GW KE KM LR LS LY MA MG ML MR MU MW MZ NA "
    "NE NG RE RW SC SD SH SL SN SO SS ST SZ TD TG TN TZ UG YT ZA ZM ZW",
    "Asia": "AE AF AM BD BH BN BT CN HK ID IL IN IQ IR JO JP KG KH KP KR KW LA LB LK MM MN MO MV MY NP OM PH PK PS QA "
    "SA SG SY TH TJ TL TM TW UZ VN YE",
    "Europe": "AD AL AT AX BA BE BG BY CH CZ DE DK EE ES FI FO FR GB GG GI GR HR HU IE IM IS IT JE LI LT LU LV MC MD "
    "ME MK MT NL NO PL PT RO RS SE SI SJ SK SM UA VA XK",
    "North America": "AG AI AW BB BL BM BQ BS BZ CA CR CU CW DM DO GD GL GP GT HN HT JM KN KY LC MF MQ MS MX NI PA PM "
    "PR SV SX TC TT US VC VG VI",
    "Oceania": "AS AU CK FJ FM GU KI MH MP NC NF NR NU NZ PF PG PN PW SB TK TO TV VU WF WS",
    "South America": "AR BO BR CL CO EC FK GF GY PE PY SR UY VE",
}
CONTINENT_OF = {country: continent for continent, countries in CONTINENTS.items() for country in countries.split()}


def continent_of(country: str) -> str:
    """Return the continent of a country by its ISO 3166-1 code, empty where it lies on two or is unknown.

    >>> continent_of("NO"), continent_of("TR")
    ('Europe', '')
    """
    return CONTINENT_OF.get(country, "")
