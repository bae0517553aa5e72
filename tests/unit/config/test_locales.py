"""The words of pages in American English."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from babel.messages.pofile import read_po
from django.apps import apps
from django.conf import settings
from django.utils.translation import gettext, override

from catalogue.models.conditions import choices_of
from catalogue.terms import LayoutName
from config.locales import compiled_into
from tests.messages import in_module, in_template, messages

SOURCE = Path(settings.ROOT) / "catalogue" / "locale"
WORDS = SOURCE / "en_US" / "LC_MESSAGES" / "django.po"
# Spelled otherwise in American English (common practice); \b keeps "programmed" and the like out.
BRITISH = re.compile(
    r"\b(?:un)?(?:catalogues?|programmes?|colours?|(?:organ|recogn|apolog|real|color)is\w+|centres?|theatres?|honours?"
    r"|labelled|cancelled|travell\w+|favourites?|greys?|licence|metres?|cheques?|minims?|crotchets?|quavers?)\b",
    re.IGNORECASE,
)


def told() -> dict[tuple[str, ...], tuple[str, ...]]:
    with WORDS.open("rb") as file:
        catalogue = read_po(file, abort_invalid=True)
    pairs = ((as_tuple(one.id), as_tuple(one.string)) for one in catalogue if one.id)
    return dict(pairs)


def as_tuple(text: str | tuple[str, ...]) -> tuple[str, ...]:
    return (text,) if isinstance(text, str) else tuple(text)


def test_every_sentence_that_is_spelled_otherwise_has_its_american_spelling() -> None:
    british = {message for message in messages() if any(BRITISH.search(part) for part in message)}

    assert len(british) > 20
    assert british - set(told()) == set()


def test_no_american_sentence_is_left_of_a_page_that_has_changed() -> None:
    assert set(told()) - messages() == set()


def test_no_american_sentence_is_spelled_the_british_way_or_lacks_a_value() -> None:
    for message, american in told().items():
        assert [part for part in american if BRITISH.search(part)] == []
        assert american != message
        assert [re.findall(r"%\(\w+\)s", part) for part in american] == [
            re.findall(r"%\(\w+\)s", part) for part in message
        ]


def test_page_in_american_english_says_catalog() -> None:
    with override("en-us"):
        assert gettext("Who keeps this catalogue") == "Who keeps this catalog"
    with override("en-gb"):
        assert gettext("Who keeps this catalogue") == "Who keeps this catalogue"


def test_words_are_compiled_again_when_they_have_changed(tmp_path: Path) -> None:
    source = tmp_path / "locale" / "en_US" / "LC_MESSAGES" / "django.po"
    source.parent.mkdir(parents=True)
    source.write_bytes(WORDS.read_bytes())
    made = compiled_into(tmp_path / "made", tmp_path / "locale") / "en_US" / "LC_MESSAGES" / "django.mo"
    first = made.read_bytes()

    made.write_bytes(b"left as it is where nothing has changed")
    compiled_into(tmp_path / "made", tmp_path / "locale")
    assert made.read_bytes() == b"left as it is where nothing has changed"

    source.write_text(source.read_text(encoding="utf-8") + '\nmsgid "Colour"\nmsgstr "Color"\n', encoding="utf-8")
    compiled_into(tmp_path / "made", tmp_path / "locale")
    assert made.read_bytes() not in (first, b"left as it is where nothing has changed")


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ('{% translate "One" %}', [("One",)]),
        ("{% translate 'It’s “one”' as x %}", [("It’s “one”",)]),
        ("{% blocktranslate with a=b %}{{ a }} of it{% endblocktranslate %}", [("%(a)s of it",)]),
        (
            "{% blocktranslate count n=x trimmed %}\n One\n{% plural %} {{ n }} ones {% endblocktranslate %}",
            [("One", "%(n)s ones")],
        ),
    ],
)
def test_sentences_of_a_template_are_found(text: str, found: list[tuple[str, ...]]) -> None:
    assert list(in_template(text)) == found


def test_sentences_of_a_module_are_found() -> None:
    assert list(in_module('x = _("One")\ny = ngettext("One", "%(n)s", n)\nz = f("Two")')) == [
        ("One",),
        ("One", "%(n)s"),
    ]


def test_words_of_lists_are_spelled_as_americans_do() -> None:
    lists = [field for model in apps.get_app_config("catalogue").get_models() for field in model._meta.concrete_fields]

    with override("en-us"):
        british = {str(label) for field in lists for _word, label in field.choices or () if BRITISH.search(str(label))}
        assert str(dict(choices_of(LayoutName))["octophonic, front centre"]) == "Octophonic, front center"

    assert british == set()
