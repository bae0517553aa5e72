"""The files that the tool makes for a pack, each drafted from the records or told why it cannot be."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import partial
from typing import Literal

from django.core.files.storage import Storage

from catalogue.documents.contents.cover_sheet import Setting
from catalogue.documents.contents.prose import Prose, chosen, shortened
from catalogue.documents.contents.text_sheet import text_sheet
from catalogue.documents.contents.titles import full_title
from catalogue.documents.model import Document
from catalogue.documents.registry import render
from catalogue.exchange.kept_content import kept
from catalogue.exchange.pictures import stored_name
from catalogue.making import Wish, dressed, make_document, prose_of
from catalogue.models import Composer
from catalogue.packing.lines import Draft, Gap, State
from catalogue.record_facts import BiographyFacts, ProgrammeNoteFacts
from catalogue.rules.calls.packs import Part, Piece
from catalogue.rules.calls.submissions import SentWork, SubmissionFacts
from catalogue.rules.texts import count_words
from catalogue.terms import Permission

NAMES_YOU = Gap("It would name you, and the call is anonymous.", state=State.LEFT_OUT)
DOCUMENTS = {
    Piece.WORKS_LIST: "works-list-by-category",
    Piece.CV: "cv-section",
    Piece.PERFORMANCES: "performance-history",
}
KINDS: dict[Piece, Literal["note", "biography", "statement"]] = {
    Piece.NOTE: "note",
    Piece.BIOGRAPHY: "biography",
    Piece.STATEMENT: "statement",
}
MADE = {
    Piece.WORKS_LIST: "Your works list.",
    Piece.CV: "Your CV.",
    Piece.PERFORMANCES: "Past performances of the works sent.",
}


class Papers:
    """Drafts the papers of one submission."""

    def __init__(self, composer: Composer, submission: SubmissionFacts, setting: Setting) -> None:
        self.composer, self.submission, self.setting = composer, submission, setting
        self.call = submission.call
        self.wish = Wish("", setting.language, setting.paper, setting.printed_on)

    # ---- texts

    def note(self, sent: SentWork) -> Draft | Gap:
        """The note on a work in the words that are allowed: the chosen one, else the longest that fits."""
        picked = [one for one in sent.notes if one.id == sent.note_id and one.id is not None] or sent.notes
        found = self.fitting(picked, self.call.note_words)
        if found is None:
            return Gap("There is no note on this work.", "Write one.", "programme-notes")
        return self.text(found, Piece.NOTE, self.call.note_words, sent)

    def biography(self) -> Draft | Gap:
        found = self.fitting(self.submission.lives, self.call.portal.life_words)
        if found is None:
            return Gap("There is no biography.", "Write one.", "biographies")
        return self.text(found, Piece.BIOGRAPHY, self.call.portal.life_words)

    def statement(self) -> Draft | Gap:
        if not self.submission.statement.strip():
            return Gap("There is no statement yet.", "Write it below.", "statement")
        found = Prose(self.submission.statement, "", "")
        return self.text(found, Piece.STATEMENT, None)

    def fitting(self, texts: Iterable[ProgrammeNoteFacts | BiographyFacts], most: int | None) -> Prose | None:
        prose = [prose_of(one, self.composer.language) for one in texts]
        return chosen(prose, self.setting.language, most)

    def text(self, found: Prose, piece: Piece, most: int | None, sent: SentWork | None = None) -> Draft | Gap:
        parts = shortened(found.body, most)
        kept, whole = sum(map(count_words, parts)), count_words(found.body)
        if not parts:
            return Gap(f"Its first sentence alone has more than {most} words.", "Write a shorter one.")
        told = f"{kept} words" if kept == whole else f"{kept} words, shortened from {whole}"
        told += f" of {most} allowed." if most else "."
        document = text_sheet(
            parts,
            kind=KINDS[piece],
            setting=self.setting,
            title=full_title(sent.work.title) if sent else (),
            signed=self.submission.signed,
            language=found.language,
        )
        return self.paper(document, Part(piece, sent.work.title.title if sent else "", words=kept), told)

    # ---- documents

    def document(self, piece: Piece) -> Draft | Gap:
        """A document that is made for other purposes too; past performances are those of the works that are sent."""
        works = tuple(one.work.id for one in self.submission.works) if piece is Piece.PERFORMANCES else ()
        if piece is Piece.PERFORMANCES and not any(one.was_played for one in self.submission.works):
            return Gap("None of the works that are sent has been performed.", state=State.READY)
        wish = replace(self.wish, kind=DOCUMENTS[piece], works=works)
        if piece is Piece.CV:
            wish = replace(wish, pages=self.call.portal.cv_pages)
        return Draft(Part(piece), MADE[piece], partial(self.made, wish))

    def rider(self, sent: SentWork) -> Draft | Gap:
        """The rider that is kept of a work; of one that needs none, none is asked."""
        if not sent.has_rider:
            return Gap("No rider is kept of this work.", "Write one if it needs it.", "riders", State.LEFT_OUT)
        hidden = self.call.anonymous
        wish = replace(self.wish, kind="rider", works=(sent.work.id,), is_anonymous=hidden, motto=self.submission.motto)
        told = "Its rider, under the motto." if hidden else "Its rider."
        return Draft(Part(Piece.RIDER, sent.work.title.title), told, partial(self.made, wish))

    def made(self, wish: Wish) -> bytes:
        return render(make_document(self.composer, wish), "pdf")

    def paper(self, document: Document, part: Part, told: str) -> Draft:
        worn = dressed(document, self.composer, has_logo=False)
        return Draft(part, told, lambda: render(worn, "pdf"))

    def photograph(self, storage: Storage) -> Draft | Gap:
        """The first portrait that may be shared; its credit belongs beside it."""
        allowed = [
            one for one in self.submission.portraits if one.permission in (Permission.APPLICATIONS, Permission.PUBLIC)
        ]
        if not allowed:
            return Gap("There is no portrait that may be sent.", "Add one, with its credit and permission.", "pictures")
        found = allowed[0]
        name = stored_name(found.sha256, found.suffix)
        told = f"{found.width} × {found.height} pixels. {found.credit}".strip()
        return Draft(Part(Piece.PHOTOGRAPH), told, partial(kept, storage, name), found.suffix)
