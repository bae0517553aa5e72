"""The files of a pack that the catalogue keeps: scores, parts and recordings, as they are or as the call wants them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from django.core.files.storage import Storage

from catalogue.documents.contents.cover_sheet import Setting, score_cover
from catalogue.documents.registry import render
from catalogue.exchange.bare_sound import bare_sound, cut_sound
from catalogue.exchange.kept_content import Kept, kept
from catalogue.exchange.pictures import stored_name
from catalogue.exchange.score_covers import with_cover
from catalogue.packing.lines import Draft, Gap
from catalogue.rules.calls.figures_of_works import clock
from catalogue.rules.calls.packs import Part, Piece
from catalogue.rules.calls.submissions import CUT, FileFacts, SentWork, SubmissionFacts


class Stored:
    """Drafts the stored files of one submission; ``storage`` is where they are kept."""

    def __init__(self, submission: SubmissionFacts, setting: Setting, storage: Storage) -> None:
        self.submission, self.setting, self.storage = submission, setting, storage

    def content(self, file: FileFacts) -> Kept:
        """The file itself. Raises FileNotFoundError where it is gone."""
        return kept(self.storage, stored_name(file.sha256, file.suffix))

    def as_it_is(self, file: FileFacts, piece: Piece, sent: SentWork) -> Draft:
        part = Part(piece, sent.work.title.title, size=file.size)
        return Draft(part, f"{file.told}.", partial(self.content, file), file.suffix)

    def score(self, sent: SentWork) -> Draft | Gap:
        """The score; an anonymous one with a cover under the motto, and without what its file says of itself."""
        file = sent.score
        if file is None:
            return Gap("No file of the score is kept.", "Add it to an edition of the work.", "editions")
        if not self.submission.call.anonymous or file.suffix != "pdf":
            return self.as_it_is(file, Piece.SCORE, sent)
        gone = f", its first {sent.cover_pages} pages left out" if sent.cover_pages else ""
        part = Part(Piece.SCORE, sent.work.title.title)
        return Draft(part, f"{file.told}, under a cover with the motto{gone}.", partial(self.covered, file, sent))

    def covered(self, file: FileFacts, sent: SentWork) -> bytes:
        cover = render(score_cover(sent.work, self.submission.motto, self.setting), "pdf")
        with self.content(file).open() as score:
            return with_cover(score, cover, without=sent.cover_pages)

    def parts(self, sent: SentWork) -> Iterator[Draft | Gap]:
        for file in sent.parts:
            yield self.as_it_is(file, Piece.PARTS, sent)
        if not sent.parts:
            yield Gap("No file of the parts is kept.", "Add them to an edition of the work.", "editions")

    def recording(self, sent: SentWork) -> Draft | Gap:
        """The recording, cut to its excerpt where its format allows; of others the cover tells where to begin."""
        found, file = sent.recording, sent.sound
        if found is None:
            return Gap("There is no recording that may be sent.", "Add one, or ask for leave to send it.", "recordings")
        if file is None:
            told = f"The {found.kind} recording has no file here."
            return Gap(told, "Add the file to the recording.", f"recordings/{found.id}")
        begins, ends = found.excerpt_from, found.excerpt_until
        if begins is None and ends is None:
            return self.whole(file, sent, "")
        span = f"from {clock(begins or 0)}" + (f" to {clock(ends)}" if ends else "")
        if file.suffix not in CUT:
            return self.whole(file, sent, f", to be heard {span}")
        part = Part(Piece.RECORDING, sent.work.title.title)
        told = f"{file.told}, cut {span}."
        return Draft(part, told, lambda: cut_sound(self.content(file), file.suffix, begins, ends), file.suffix)

    def whole(self, file: FileFacts, sent: SentWork, heard: str) -> Draft:
        """The whole recording; for an anonymous call without its tags where they can be taken out."""
        draft = self.as_it_is(file, Piece.RECORDING, sent)
        if not self.submission.call.anonymous:
            return replace(draft, told=f"{file.told}{heard}.")
        if file.suffix not in CUT:
            return replace(draft, told=f"{file.told}{heard}. Its tags stay in it: look at them yourself.")
        part = Part(Piece.RECORDING, sent.work.title.title)
        told = f"{file.told}, without its tags{heard}."
        return Draft(part, told, lambda: bare_sound(self.content(file), file.suffix), file.suffix)
