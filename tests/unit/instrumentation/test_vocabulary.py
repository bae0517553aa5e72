from __future__ import annotations

import pytest

from catalogue.instrumentation.names import name_at
from catalogue.instrumentation.tokens import nodes_of
from catalogue.instrumentation.vocabulary import (
    FAMILIES,
    LANGUAGES,
    called,
    family_of,
    instrument,
    instruments,
    key_of,
    keys,
    score_order,
)


def test_every_instrument_has_names_in_every_language():
    for slug, row in instruments().items():
        assert set(row.names) == set(LANGUAGES), slug
        assert all(name.singular and name.plural and name.abbreviation for name in row.names.values()), slug


def test_every_instrument_belongs_to_a_family():
    assert {row.family for row in instruments().values()} == set(FAMILIES)


def test_canonical_abbreviations_stand_for_one_instrument_each():
    abbreviations = [row.names["en-GB"].abbreviation for row in instruments().values()]

    assert len({key_of(one) for one in abbreviations}) == len(abbreviations)


def test_usual_auxiliaries_are_in_the_vocabulary():
    assert {slug for row in instruments().values() for slug in row.usual} <= set(instruments())


def test_slugs_are_lower_case_words_joined_by_hyphens():
    assert all(slug == slug.lower() and slug.replace("-", "").isalnum() for slug in instruments())


def test_spellings_are_found_under_their_keys():
    for row in instruments().values():
        for _, spelling in row.spellings:
            assert row.slug in keys()[key_of(spelling)]


@pytest.mark.parametrize("slug", instruments())
def test_canonical_abbreviation_is_a_name_of_its_instrument(slug):
    abbreviation = called(slug).abbreviation

    found = name_at(nodes_of(abbreviation), 0)

    assert found is not None
    assert slug in found.slugs
    assert found.written == abbreviation


def test_score_order_follows_the_page():
    shuffled = ["violin-1", "harp", "flute", "timpani", "horn", "piccolo", "voice-soprano", "tuba", "piano"]

    assert sorted(shuffled, key=score_order) == [
        "piccolo", "flute", "horn", "tuba", "timpani", "harp", "piano", "voice-soprano", "violin-1",
    ]  # fmt: skip


def test_american_names_are_given_where_they_differ():
    assert called("cor-anglais", "en-US").singular == "English horn"
    assert called("flute", "en-US") == called("flute", "en-GB")


def test_instrument_that_is_not_in_the_vocabulary_is_one_of_its_own():
    assert (instrument("taonga-puoro").slug, family_of("taonga-puoro")) == ("taonga-puoro", "other")
    assert called("taonga-puoro").singular == "taonga puoro"


@pytest.mark.parametrize(
    ("slug", "sound", "marc"),
    [
        # MusicXML 4.0 sounds.xml and MARC 21 field 048, code list of the Library of Congress
        ("flute", "wind.flutes.flute", "wa"),
        ("alto-flute", "wind.flutes.flute.alto", "wz"),
        ("cor-anglais", "wind.reed.english-horn", "wf"),
        ("e-flat-clarinet", "wind.reed.clarinet.eflat", "wc"),
        ("horn", "brass.french-horn", "ba"),
        ("timpani", "drum.timpani", "pa"),
        ("double-bass", "strings.contrabass", "sd"),
        ("celesta", "keyboard.celesta", "kf"),
    ],
)
def test_outside_codes_are_those_of_the_standards(slug, sound, marc):
    assert (instrument(slug).sound, instrument(slug).marc) == (sound, marc)
