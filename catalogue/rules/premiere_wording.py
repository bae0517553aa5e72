"""How a title is worded, and whether the records bear it out.

A catalogue knows its own works, so a world or version premiere stands on the records alone. Whether an orchestra in
another country played a work before is not in them: a national or city premiere is worded "in these records" unless the
billing says the same (common practice: such a claim needs a search of earlier performances there).
"""

from __future__ import annotations

from collections.abc import Collection
from enum import StrEnum

from catalogue.rules.billing import Billing, Scope, read_billing
from catalogue.rules.playings import Playing
from catalogue.rules.states import state_name


class Title(StrEnum):
    """What a playing may be, widest first."""

    WORLD = "world"
    NATIONAL = "national"
    CITY = "city"
    VERSION = "version"
    PART = "part"


NARROWER_THAN_THE_WORLD = {Scope.CONTINENT, Scope.NATIONAL, Scope.REGION, Scope.CITY}


def billing_of(playing: Playing) -> Billing | None:
    """Return what a playing was billed as, None where it was billed as no first."""
    words = playing.item.billing
    return read_billing(words, city=playing.event.city, region=playing.region) if words else None


def is_proved(title: Title, playing: Playing, billing: Billing | None, *, undated: bool) -> bool:
    """Say whether a title needs no "in these records"; ``undated`` where the work was also played on an unknown day."""
    if title is Title.NATIONAL:
        return billing is not None and billing.scope is Scope.NATIONAL and names_the_state(billing, playing)
    if title is Title.CITY:
        return billing is not None and billing.scope is Scope.CITY
    if title is Title.PART:
        return not undated
    return not undated and (billing is None or billing.scope not in NARROWER_THAN_THE_WORLD)


def names_the_state(billing: Billing, playing: Playing) -> bool:
    return billing.state in {playing.state, playing.event.country}


def widest(titles: Collection[Title]) -> tuple[Title, ...]:
    """Return the titles that a line says: the others follow from them.

    A world premiere says everything, a national one its city's; that of a version is said beside a national one.
    """
    if Title.WORLD in titles:
        return (Title.WORLD,)
    said = [title for title in (Title.VERSION, Title.NATIONAL) if title in titles]
    return tuple(said) or tuple(title for title in (Title.CITY, Title.PART) if title in titles)


def word_title(title: Title, playing: Playing, *, proved: bool, shared_with: Collection[str] | None = None) -> str:
    """Return the words of one title.

    ``shared_with`` are the cities of the playings of that day that hold it too, sorted; None where no other does.
    """
    of_what = what_was_first(title, playing)
    if title is Title.PART:
        return of_what
    words = f"{title} premiere" if title is not Title.VERSION else "premiere"
    stem = words if proved else "first performance"
    sharing = "" if shared_with is None else shared(shared_with, playing)
    return f"{stem}{of_what}{'' if proved else ' in these records'}{place_in_words(title, playing)}{sharing}"


def place_in_words(title: Title, playing: Playing) -> str:
    if title is Title.NATIONAL:
        return f" ({state_in_words(playing)})"
    return f" ({playing.event.city})" if title is Title.CITY else ""


def what_was_first(title: Title, playing: Playing) -> str:
    if title is Title.PART:
        return f"first performance of {playing.item.part.strip() or 'a part'}"
    if title is not Title.VERSION:
        return ""
    label = playing.work.version_label.strip()
    if not label:
        return " of this version"
    return f" of the {label}" if label.endswith("version") else f" of the version “{label}”"


def state_in_words(playing: Playing) -> str:
    then = playing.event.country_then.strip()
    return f"{then}, the state of the time" if then else state_name(playing.event.country)


def shared(cities: Collection[str], playing: Playing) -> str:
    others = [city for city in cities if city != playing.event.city]
    return f", shared with {', '.join(others)}" if others else ", shared"
