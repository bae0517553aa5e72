"""Papers as they were sent: kept with their bytes, and held against what the record says now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import Enum
from hashlib import sha256
from time import monotonic
from typing import Any

from django.core.files.storage import default_storage
from django.forms import ChoiceField
from django.http import QueryDict
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from catalogue.documents.fingerprint import only_in, said
from catalogue.documents.model import Document
from catalogue.documents.registry import FORMATS, DocumentNeeds, render
from catalogue.exchange.sent_files import keep_sent, sent_file
from catalogue.gathering.catalogues import gathered_once
from catalogue.gathering.once import once_for_each_state
from catalogue.gathering.versions import State, state_of_everything
from catalogue.making import make_document
from catalogue.models import Composer, Sending
from catalogue.models.fields import LONG_LINE
from catalogue.timing import PartialDate
from catalogue.web.forms.document_base import DocumentForm
from catalogue.web.forms.documents import FORMS

TEXT = "txt"
NAMED = ("work", "performance", "hire")
"""What a paper is of: columns of the record, so that a catalogue that is handed over takes them along."""
MOST_REMEMBERED = 2_000
MOST_SECONDS = 2.0
"""How long a list may take to hold its papers against the record, each of which is made again for it."""


class Since(Enum):
    """How the record stands to a paper that was sent."""

    SAME = gettext_lazy("says the same")
    CHANGED = gettext_lazy("says something else")
    UNMADE = gettext_lazy("cannot be made again")
    UNKNOWN = gettext_lazy("not known")
    WAITING = gettext_lazy("open it to see")


@dataclass(frozen=True, slots=True)
class Held:
    """A paper held against the record: the lines that went and are not there any more, and those that are new."""

    since: Since
    gone: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    reason: str = ""


# ---- sending


def begin(form: DocumentForm) -> Sending:
    """Return the record of a paper that is about to be sent; the form is valid."""
    named = {name: form.cleaned_data.get(name) for name in NAMED}
    named["work"] = form.work
    return Sending(
        composer=form.composer,
        document=form.word,
        title=title_of(form),
        asked=answers_of(form),
        made_on=form.today,
        sent_on=form.today,
        **named,
    )


def title_of(form: DocumentForm) -> str:
    """What a paper is called: its kind, and the work that it is of."""
    return f"{form.title}, {form.work.title}"[:LONG_LINE] if form.work else str(form.title)


def answers_of(form: DocumentForm) -> dict[str, str]:
    """Return what a form was answered, each day as it is stored: how it is typed depends on the reader's language."""
    asked = {name: form.data.get(name, "") for name in form.fields if name not in NAMED}
    days = {name: str(day) for name, day in form.cleaned_data.items() if isinstance(day, PartialDate)}
    return {**asked, **days}


def keep_paper(sending: Sending, document: Document, format: str, name: str) -> None:
    """Make the file and keep it, with what it says; the record then names both."""
    content, lines = render(document, format), text_of(document)
    sending.sha256, sending.suffix = keep_sent(content, format, default_storage), format
    sending.byte_count, sending.file_name = len(content), name + FORMATS[format].suffix
    sending.facts_sha256 = keep_sent(lines, TEXT, default_storage)


def text_of(document: Document) -> bytes:
    return "\n".join(said(document)).encode()


# ---- what was sent, and what the record says now


def paper_of(sending: Sending) -> bytes | None:
    """Return the file as it was sent, None where it is gone or has been changed."""
    return sent_file(sending.sha256, sending.suffix, default_storage)


def form_again(sending: Sending, composer: Composer) -> DocumentForm:
    """Return the form of a paper as it was answered, on the day on which it was made."""
    return FORMS[sending.document](asked_again(sending), composer=composer, today=sending.made_on)


def asked_again(sending: Sending) -> QueryDict:
    """Return what asks for a paper again."""
    asked = QueryDict(mutable=True)
    asked.update({name: str(answer) for name, answer in sending.asked.items() if answer})
    fields = FORMS[sending.document].field_order if sending.document in FORMS else ()
    keys = {name: getattr(sending, f"{name}_id") for name in NAMED if name in fields}
    asked.update({name: str(key) for name, key in keys.items() if key is not None})
    return asked


def options_of(sending: Sending, composer: Composer) -> list[tuple[str, str]]:
    """Return what a paper was asked, in the words of its form."""
    if sending.document not in FORMS:
        return []
    form = form_again(sending, composer)
    told = ((name, field) for name, field in form.fields.items() if name not in (*NAMED, "format"))
    asked = sending.asked
    return [(str(field.label), in_words(field, asked[name])) for name, field in told if asked.get(name)]


def in_words(field: Any, answer: str) -> str:
    if isinstance(field, ChoiceField):
        choices: Any = field.choices
        return str(dict(choices).get(answer, answer))
    return _("yes") if answer == "on" else answer


def hold_all(sendings: Sequence[Sending], seconds: float = MOST_SECONDS) -> list[Held]:
    """Hold each of these papers against the record, and say so in its ``since``; each catalogue is gathered once.

    After so many ``seconds`` the others are left for when they are opened, or the list is asked for again.
    """
    kept = [one for one in sendings if one.facts_sha256]
    state = state_of_everything() if kept else None
    composers = Composer.objects.select_related("house").in_bulk({one.composer_id for one in kept}) if kept else {}
    until = monotonic() + seconds
    found: list[Held] = []
    with gathered_once():
        for one in sendings:
            if state is None or not one.facts_sha256:
                held = Held(Since.UNKNOWN)
            elif found and monotonic() > until:
                held = Held(Since.WAITING)
            else:
                held = held_of(one, state, composers[one.composer_id])
            one.since = str(held.since.value)
            found.append(held)
    return found


def held_of(sending: Sending, state: State, composer: Composer) -> Held:
    if sending.document not in FORMS:
        return Held(Since.UNMADE, reason=_("This version of the program does not make such a paper."))
    asked = tuple(asked_again(sending).items())
    return held_in(state, composer, sending.document, asked, sending.made_on, sending.facts_sha256)


@once_for_each_state(MOST_REMEMBERED)
def held_in(
    _state: State, composer: Composer, word: str, asked: tuple[tuple[str, str], ...], made_on: date, before: str
) -> Held:
    """Make a paper again, in words alone, and compare; papers that say the same are compared once."""
    again = QueryDict(mutable=True)
    again.update(dict(asked))
    form = FORMS[word](again, composer=composer, today=made_on)
    if not form.is_valid():
        return Held(Since.UNMADE, reason=" ".join(str(error) for errors in form.errors.values() for error in errors))
    try:
        text = text_of(make_document(composer, form.wish()))
    except DocumentNeeds as needs:
        return Held(Since.UNMADE, reason=needs.reason)
    if sha256(text).hexdigest() == before:
        return Held(Since.SAME)
    kept, now = sent_file(before, TEXT, default_storage), text.decode().split("\n")
    then = kept.decode().split("\n") if kept is not None else now
    return Held(Since.CHANGED, gone=only_in(then, now), new=only_in(now, then))


@dataclass(frozen=True, slots=True)
class PaperPage:
    """What the page of a paper shows besides its record: how it was asked for, and what the record says now."""

    held: Held
    options: list[tuple[str, str]]
    asked: str
    format: str
    is_there: bool


def paper_page(sending: Sending) -> PaperPage:
    (held,) = hold_all([sending])
    return PaperPage(
        held=held,
        options=options_of(sending, sending.composer),
        asked=asked_again(sending).urlencode() if sending.document in FORMS else "",
        format=FORMATS[sending.suffix].title if sending.suffix in FORMATS else sending.suffix.upper(),
        is_there=paper_of(sending) is not None,
    )
