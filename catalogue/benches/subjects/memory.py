"""How much memory the large things take: each in a process of its own, beside the same process without it.

What is taken in, kept, packed and sent goes piece by piece, so that the memory does not grow as the file does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from wave import open as open_wave

from django.core.files.base import File
from django.urls import reverse
from django.utils import timezone

from catalogue.actions.calls import choose_works, propose_call
from catalogue.benches import errands
from catalogue.benches.apart import MEGABYTE, database_name, peak_of
from catalogue.benches.errands import form_pieces
from catalogue.benches.houses import session_of
from catalogue.benches.measuring import Bench, Heading, Pair, Unit
from catalogue.benches.rows import store
from catalogue.exchange.stored_files import keep_upload
from catalogue.exchange.whole_files import WholeFiles
from catalogue.models import Composer, Recording, StoredFile, Work
from catalogue.terms import FileKind

RECORDS = 20
ROWS = 500
"""Of a table: what it is large by are its notes."""
CALL = """{} prize for chamber music. Send a recording.
Deadline: 20 March 2027."""
WAVE = b"\x01\x00\x02\x00" * 25_000


@dataclass(frozen=True, slots=True)
class Place:
    """Where a process works: a data folder, and whose catalogue is open to which session."""

    folder: Path
    composer: Composer
    session: str

    @property
    def files(self) -> WholeFiles:
        return WholeFiles(location=self.folder / "files")

    def address(self, name: str, *told: object) -> str:
        return reverse(name, args=[self.composer.slug, *told])

    def peak(self, errand: Callable[..., None], *told: str) -> float:
        name = f"{errands.__name__}:{errand.__name__}"
        return peak_of(name, self.session, self.address("today"), *told, data=self.folder)


Wanted = Callable[[Place, int], Callable[[], float]]


@contextmanager
def beside_nothing(size: int, *, wanted: Wanted) -> Iterator[Pair]:
    """Prepare an errand of so many megabytes; the bound answers one page and no more."""
    database_name()
    with TemporaryDirectory(prefix="ledgerline-bench-") as folder:
        composer = store(works=RECORDS, performances=RECORDS)
        place = Place(Path(folder), composer, session_of(composer.memberships.get().user))
        yield Pair(ours=wanted(place, size), bare=partial(place.peak, errands.start))


def table_sent(place: Place, size: int) -> Callable[[], float]:
    """A table of works is sent to be imported; one that is larger than what is taken in is refused."""
    note = b"x" * (size * MEGABYTE // ROWS)
    rows = (b"Garden %d,violin,%b\n" % (number, note) for number in range(ROWS))
    body = place.folder / "table.form"
    write(body, form_pieces({"kind": "works"}, "works.csv", (b"title,instrumentation,notes\n", *rows)))
    # A long import is followed on its page while it goes on; one that is refused is said on the form.
    return partial(place.peak, errands.take_in, place.address("import-new"), str(body), "200")


def recording_sent(place: Place, size: int) -> Callable[[], float]:
    """A recording is sent to be kept."""
    work = Work.objects.filter(composer=place.composer)[0]
    take = Recording.objects.create(work=work, kind="live")
    sound, body = place.folder / "take.wav", place.folder / "sound.form"
    make_wave(sound, size)
    with open(sound, "rb") as file:
        typed = {"kind": FileKind.RECORDING.value, "recording": str(take.pk), "work": str(work.pk)}
        write(body, form_pieces(typed, "take.wav", iter(partial(file.read, MEGABYTE), b"")))
    return partial(place.peak, errands.take_in, place.address("record-new", "files"), str(body), "302")


def backup_made(place: Place, size: int) -> Callable[[], float]:
    keep_recording(place, size)
    return partial(place.peak, errands.back_up, str(place.folder / "kept.zip"))


def backup_restored(place: Place, size: int) -> Callable[[], float]:
    backup_made(place, size)()
    return partial(place.peak, errands.bring_back, str(place.folder / "kept.zip"))


def pack_sent(place: Place, size: int, *, kind: str = "Open") -> Callable[[], float]:
    """The pack of a call with a recording is made and handed out."""
    work = keep_recording(place, size)
    call = propose_call(composer=place.composer, text=CALL.format(kind), now=timezone.now())
    choose_works(call=call, works=[work])
    address = f"{place.address('call-pack-file', call.pk)}?anyway"
    return partial(place.peak, errands.hand_out, address, str(size * MEGABYTE))


# ---- what is there before


def write(path: Path, pieces: Iterator[bytes]) -> None:
    with open(path, "wb") as file:
        file.writelines(pieces)


def make_wave(path: Path, size: int) -> None:
    """Write so many megabytes of sound."""
    with open_wave(str(path), "wb") as wave:
        wave.setparams((2, 2, 48_000, 0, "NONE", ""))
        for _piece in range(size * MEGABYTE // len(WAVE)):
            wave.writeframesraw(WAVE)


def keep_recording(place: Place, size: int) -> Work:
    """Keep a recording of a work, and return that."""
    work = Work.objects.filter(composer=place.composer)[0]
    take = Recording.objects.create(work=work, kind="live")
    path = place.folder / "take.wav"
    make_wave(path, size)
    with open(path, "rb") as file:
        digest = keep_upload(File(file), "wav", place.files)
    StoredFile.objects.create(
        composer=place.composer, work=work, recording=take, kind=FileKind.RECORDING.value, original_name="take.wav",
        sha256=digest, suffix="wav", byte_count=path.stat().st_size,
    )  # fmt: skip
    path.unlink()
    return work


BOUND = "the same process has answered one page and done no more"


def of(name: str, wanted: Wanted) -> Bench:
    prepare = partial(beside_nothing, wanted=wanted)
    return Bench(
        name,
        BOUND,
        (1, 10, 100),
        prepare,
        1.5,
        stored=True,
        unit=Unit.MEGABYTES,
        counted=True,
        on_disk=True,
        steady=True,
    )


HEADING = Heading.START
BENCHES = (
    of("memory of a table that is sent, MB", table_sent),
    of("memory of a recording that is sent, MB", recording_sent),
    of("memory of a backup, MB of files", backup_made),
    of("memory of a backup that is brought back, MB of files", backup_restored),
    of("memory of a pack, MB of files", pack_sent),
    of("memory of an anonymous pack, MB of files", partial(pack_sent, kind="Anonymous")),
)
