"""The forms of a pack: name and texts, what is sent of each work, what is ready, and the referees."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django import forms
from django.forms.boundfield import BoundField
from django.utils.translation import gettext_lazy as _

from catalogue.actions.submissions import Choices, LetterDays, Readiness
from catalogue.facts import RecordingFacts
from catalogue.models import Composer, Referee
from catalogue.models.fields import LINE, LONG_LINE, TEXT, refuse_unprintable
from catalogue.models.writings import first_words
from catalogue.record_facts import EditionFacts, ProgrammeNoteFacts
from catalogue.rules.calls.packs import BY_HAND, asked_of
from catalogue.rules.calls.submissions import Letter, SentWork, SubmissionFacts
from catalogue.timing import write_duration
from catalogue.web.forms.call_fields import day_field, number_field
from catalogue.web.forms.document_base import language_names

MOST_COVER_PAGES = 20
CHOSEN_FOR_YOU = _("the best fitting")


class PackForm(forms.Form):
    """What the composer decides about a pack; the fields of each work are added for the works that are chosen.

    ``saves`` is how often the submission had been saved when the form was opened.
    """

    saves = forms.IntegerField(widget=forms.HiddenInput, required=False)
    language = forms.ChoiceField(label=_("Language of the papers"), required=False)
    motto = forms.CharField(
        label=_("Motto"),
        required=False,
        max_length=LINE,
        validators=[refuse_unprintable],
        help_text=_("Stands for your name on every paper and in the names of the files."),
    )
    statement = forms.CharField(
        label=_("Statement"),
        required=False,
        max_length=TEXT,
        validators=[refuse_unprintable],
        widget=forms.Textarea(attrs={"rows": 8}),
    )
    by_hand = forms.MultipleChoiceField(
        label=_("Ready, and not made here"), required=False, widget=forms.CheckboxSelectMultiple
    )

    def __init__(self, typed: Any = None, *, submission: SubmissionFacts, saves: int) -> None:
        super().__init__(typed, initial={**initial_of(submission), "saves": saves})
        self.submission = submission
        choice: Any = self.fields["language"]
        choice.choices = [("", _("as in your profile")), *language_names()]
        ticks = [(one.key, one.words) for one in asked_of(submission.call) if one.piece in BY_HAND]
        boxes: Any = self.fields["by_hand"]
        boxes.choices = ticks
        if not ticks:
            del self.fields["by_hand"]
        if not submission.call.anonymous:
            del self.fields["motto"]
        for sent in submission.works:
            self.add_work(sent)

    def add_work(self, sent: SentWork) -> None:
        notes = [(str(one.id), told_note(one)) for one in sent.notes if one.id is not None]
        heard = [(str(one.id), told_recording(one)) for one in sent.recordings]
        printed = [(str(one.id), told_edition(one)) for one in sent.editions]
        offered = (("note", _("Note"), notes), ("recording", _("Recording"), heard), ("edition", _("Score"), printed))
        for name, label, choices in offered:
            if len(choices) > 1:
                all_of_them = [("", CHOSEN_FOR_YOU), *choices]
                self.fields[f"{name}-{sent.work.id}"] = forms.ChoiceField(
                    label=label, required=False, choices=all_of_them
                )
        if self.submission.call.anonymous and sent.score is not None and sent.score.suffix == "pdf":
            hint = _("Left out; a cover with the motto replaces them.")
            pages = number_field(_("Pages of its own cover"), MOST_COVER_PAGES, help_text=hint)
            self.fields[f"cover_pages-{sent.work.id}"] = pages

    def works(self) -> Iterator[tuple[SentWork, tuple[BoundField, ...]]]:
        """Yield each work that has something to choose, with its fields."""
        for sent in self.submission.works:
            fields = tuple(self[name] for name in self.fields if name.endswith(f"-{sent.work.id}"))
            if fields:
                yield sent, fields

    def ready(self) -> Readiness:
        cleaned = self.cleaned_data
        return Readiness(
            language=cleaned["language"],
            motto=cleaned.get("motto", self.submission.motto).strip(),
            statement=cleaned["statement"],
            by_hand=tuple(cleaned.get("by_hand", ())),
            of_works={sent.work.id: self.choices_of(sent) for sent in self.submission.works},
        )

    def choices_of(self, sent: SentWork) -> Choices:
        def picked(name: str, before: int | None) -> int | None:
            typed = self.cleaned_data.get(f"{name}-{sent.work.id}")
            return before if typed is None else int(typed) if typed else None

        return Choices(
            picked("note", sent.note_id),
            picked("recording", sent.recording_id),
            picked("edition", sent.edition_id),
            self.cleaned_data.get(f"cover_pages-{sent.work.id}", sent.cover_pages) or 0,
        )


def told_note(note: ProgrammeNoteFacts) -> str:
    return f"{note.words} {_('words')}: {first_words(note.body, 50)}"


def told_edition(edition: EditionFacts) -> str:
    return ", ".join(part for part in (str(edition.kind), edition.published_by, edition.number) if part)


def told_recording(recording: RecordingFacts) -> str:
    year = str(recording.recorded.year) if recording.recorded else ""
    length = write_duration(recording.duration) if recording.duration else ""
    return ", ".join(part for part in (str(recording.kind), recording.performers, year, length) if part)


def initial_of(submission: SubmissionFacts) -> dict[str, Any]:
    found: dict[str, Any] = {
        "language": submission.language,
        "motto": submission.motto,
        "statement": submission.statement,
        "by_hand": list(submission.by_hand),
    }
    for sent in submission.works:
        found |= {f"note-{sent.work.id}": sent.note_id or "", f"recording-{sent.work.id}": sent.recording_id or ""}
        found |= {f"edition-{sent.work.id}": sent.edition_id or "", f"cover_pages-{sent.work.id}": sent.cover_pages}
    return found


class LettersForm(forms.Form):
    """The days of each letter, and somebody who is asked further."""

    known = forms.ChoiceField(label=_("A referee you have had"), required=False)
    name = forms.CharField(label=_("Or a new one"), required=False, max_length=LINE, validators=[refuse_unprintable])
    institution = forms.CharField(
        label=_("Where they are"), required=False, max_length=LONG_LINE, validators=[refuse_unprintable]
    )
    email = forms.EmailField(label=_("E-mail"), required=False)

    def __init__(self, typed: Any = None, *, letters: tuple[Letter, ...], composer: Composer) -> None:
        super().__init__(typed, initial=days_of(letters))
        self.letters = letters
        had = Referee.objects.filter(composer=composer).exclude(pk__in=[one.referee_id for one in letters])
        choice: Any = self.fields["known"]
        choice.choices = [("", "—"), *((str(one.pk), str(one)) for one in had.order_by("name", "pk"))]
        for one in letters:
            for name, label in (("asked_on", _("Asked")), ("agreed_on", _("Agreed")), ("received_on", _("Received"))):
                self.fields[f"{name}-{one.id}"] = day_field(label)
            self.fields[f"gone-{one.id}"] = forms.BooleanField(label=_("No longer asked"), required=False)

    def rows(self) -> Iterator[tuple[Letter, tuple[BoundField, ...]]]:
        for one in self.letters:
            yield one, tuple(self[name] for name in self.fields if name.endswith(f"-{one.id}"))

    def days(self) -> dict[int, LetterDays]:
        cleaned = self.cleaned_data
        names = ("asked_on", "agreed_on", "received_on")
        return {one.id: LetterDays(*(cleaned[f"{name}-{one.id}"] for name in names)) for one in self.letters}

    def gone(self) -> list[int]:
        return [one.id for one in self.letters if self.cleaned_data[f"gone-{one.id}"]]


def days_of(letters: tuple[Letter, ...]) -> dict[str, Any]:
    names = ("asked_on", "agreed_on", "received_on")
    return {f"{name}-{one.id}": getattr(one, name) for one in letters for name in names}
