from __future__ import annotations

from catalogue.instrumentation.tokens import Bracket, Token, flatten, nodes_of


def texts(nodes):
    return [node.text if isinstance(node, Token) else [node.opening, *texts(node.nodes)] for node in nodes]


def test_text_is_cut_into_words_numbers_marks_and_brackets():
    assert texts(nodes_of("3(II=picc).2, ob d'amore")) == [
        "3", ["(", "II", "=", "picc"], ".", "2", ",", "ob", "d'amore",
    ]  # fmt: skip


def test_places_count_characters_of_the_text_as_given():
    text = "Flöte – “x” – B♭"

    assert [text[node.start : node.end] for node in nodes_of(text)] == ["Flöte", "–", "“x”", "–", "B♭"]


def test_dashes_of_every_length_are_one_mark():
    assert {node.text for node in nodes_of("-–—−‑")} == {"-"}


def test_signs_of_other_scripts_are_read_like_their_latin_kin():
    assert texts(nodes_of("２、３（４）")) == ["2", ",", "3", ["(", "4"]]


def test_blank_before_a_token_is_remembered():
    assert [node.spaced for node in nodes_of("2 fl.ob")] == [False, True, False, False]


def test_bracket_that_is_never_closed_ends_with_its_line():
    first, *rest = nodes_of("2(picc\nob")

    assert first == Token("number", "2", 0, 1, False, "2")
    assert isinstance(rest[0], Bracket)
    assert (rest[0].closed, rest[0].end, texts(rest[1:])) == (False, 6, ["\n", "ob"])


def test_closing_bracket_of_another_kind_closes_nothing():
    assert texts(nodes_of("(a]b)")) == [["(", "a", "]", "b"]]


def test_note_between_quotation_marks_is_one_token():
    assert texts(nodes_of("fl “in A, low”")) == ["fl", "“in A, low”"]


def test_deep_nesting_is_cut_off_without_losing_characters():
    nodes = nodes_of("(" * 400 + "a" + ")" * 400)

    assert "a" in [token.text for token in flatten(nodes)]
