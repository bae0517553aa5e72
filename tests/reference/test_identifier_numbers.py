"""Published, standard and made-up numbers with their check digits.

``identifiers/numbers.csv`` says of each where it was seen and whether it is a published record, an example of the
standard or of an encyclopedia, or a made-up placeholder. The IPI numbers below are those of public examples: two name
numbers printed in general reference works, two base numbers of the register's own documentation.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from stdnum import ismn, isni

from catalogue.rules.identifiers import (
    Identifier,
    IdentifierError,
    ean_check,
    mod_11_2_check,
    read_identifier,
    write_identifier,
)

with (Path(__file__).parent / "identifiers" / "numbers.csv").open(encoding="utf-8", newline="") as file:
    ROWS = list(csv.DictReader(file))

VALID = [row for row in ROWS if row["valid"] == "y"]
INVALID = [row for row in ROWS if row["valid"] == "n"]


def test_the_table_has_valid_and_invalid_numbers() -> None:
    assert (len(VALID), len(INVALID)) == (36, 16)


@pytest.mark.parametrize("row", VALID, ids=lambda row: row["as_printed"])
def test_valid_number_is_normalised(row: dict[str, str]) -> None:
    assert read_identifier(Identifier(row["kind"]), row["as_printed"]) == row["normalised"]


@pytest.mark.parametrize("row", INVALID, ids=lambda row: row["as_printed"])
def test_invalid_number_is_refused(row: dict[str, str]) -> None:
    with pytest.raises(IdentifierError) as caught:
        read_identifier(Identifier(row["kind"]), row["as_printed"])

    if row["computed_check"]:
        assert f"would be {row['computed_check']}, not {row['printed_check']}" in caught.value.reason


@pytest.mark.parametrize("number", ["00014107338", "00334284961", "I-001068130-6", "I-000000229-7"])
def test_ipi_numbers_of_public_examples_pass(number: str) -> None:
    assert read_identifier(Identifier.IPI, number) == number


@pytest.mark.parametrize(
    "row", [row for row in VALID if row["kind"] in {"ISMN", "ISNI"}], ids=lambda row: row["as_printed"]
)
def test_own_check_digits_agree_with_the_library(row: dict[str, str]) -> None:
    number, kind = row["normalised"], row["kind"]
    ours = ean_check(number[:-1]) if kind == "ISMN" else mod_11_2_check(number[:-1])

    assert ours == number[-1]
    assert (ismn if kind == "ISMN" else isni).is_valid(number)


@pytest.mark.parametrize("row", VALID, ids=lambda row: row["as_printed"])
def test_printed_form_reads_back(row: dict[str, str]) -> None:
    kind = Identifier(row["kind"])

    assert read_identifier(kind, write_identifier(kind, row["normalised"])) == row["normalised"]


# Examples kept apart from the table, from memory: the ISMN users' manual, the ORCID documentation (its numbers have the
# check character of an ISNI, ISO 7064 MOD 11-2), the ISRC handbook and ISO 3901.
KEPT_APART = [
    (Identifier.ISMN, "M-2306-7118-7", "9790230671187"),
    (Identifier.ISMN, "979-0-2306-7118-7", "9790230671187"),
    (Identifier.ISNI, "0000 0002 1825 0097", "0000000218250097"),
    (Identifier.ISNI, "0000-0001-5109-3700", "0000000151093700"),
    (Identifier.ISNI, "https://isni.org/isni/000000021694233x", "000000021694233X"),
    (Identifier.ISRC, "US-S1Z-99-00001", "US-S1Z-99-00001"),
    (Identifier.ISRC, "ISRC FRZ039800212", "FR-Z03-98-00212"),
]


@pytest.mark.parametrize(("kind", "printed", "stored"), KEPT_APART, ids=lambda value: str(value))
def test_examples_kept_apart_pass_and_no_other_last_mark_does(kind: Identifier, printed: str, stored: str) -> None:
    assert read_identifier(kind, printed) == stored
    if kind is not Identifier.ISRC:
        for wrong in set("0123456789") - {stored[-1]}:
            with pytest.raises(IdentifierError, match=f"would be {stored[-1]}, not {wrong}"):
                read_identifier(kind, stored[:-1] + wrong)
