"""The values of a technical setup, as its typed lists say them.

Lengths are in seconds, angles in degrees, rates in hertz.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from catalogue.terms import LayoutName, SetupKind, Synchronisation
from catalogue.timing import PartialDate


class Feed(StrEnum):
    """What kind of signal comes in: of a microphone, through a DI box, at line level, or digital."""

    MICROPHONE = "microphone"
    DI = "DI"
    LINE = "line"
    DIGITAL = "digital"


class Send(StrEnum):
    """Where an output leads."""

    LOUDSPEAKER = "loudspeaker"
    SUBWOOFER = "subwoofer"
    MONITOR = "monitor"
    IN_EAR = "in-ear"
    RECORDING = "recording"
    OTHER = "other"


class Mark(StrEnum):
    """What stands on a stage plan."""

    PLAYER = "player"
    MICROPHONE = "microphone"
    LOUDSPEAKER = "loudspeaker"
    MONITOR = "monitor"
    DESK = "desk"
    POWER = "power"
    CONDUCTOR = "conductor"
    THING = "thing"


@dataclass(frozen=True, slots=True)
class Channels:
    """A channel, or several that follow one another."""

    first: int
    last: int

    def __len__(self) -> int:
        return self.last - self.first + 1

    def __str__(self) -> str:
        return str(self.first) if self.first == self.last else f"{self.first}\N{EN DASH}{self.last}"


@dataclass(frozen=True, slots=True)
class Input:
    """A row of the input list; ``line`` is the microphone, box or line as it is typed, ``to`` what it feeds."""

    channels: Channels
    source: str
    line: str = ""
    feed: Feed | None = None
    stand: str = ""
    phantom: bool = False
    insert: str = ""
    to: str = ""
    provider: str = ""
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Output:
    """A row of the output list: where the channels lead and what is on them; ``heard_by`` names players."""

    channels: Channels
    destination: str
    signal: str = ""
    send: Send = Send.LOUDSPEAKER
    heard_by: str = ""
    provider: str = ""
    remark: str = ""


@dataclass(frozen=True, slots=True)
class Speaker:
    """A channel of a layout. Azimuth 0 is the front, minus the left seen from the audience; elevation 0 is ear height.

    ``is_low`` marks a channel of low frequencies alone, which may stand anywhere.
    """

    name: str
    azimuth: Decimal
    elevation: Decimal = Decimal(0)
    is_low: bool = False


@dataclass(frozen=True, slots=True)
class Media:
    """A file that is played; ``sha256`` is that of its bytes, ``bits`` those of a sample, ``use`` what it is for."""

    name: str
    channels: int | None = None
    rate: int | None = None
    bits: int | None = None
    seconds: int | None = None
    sha256: str = ""
    use: str = ""


@dataclass(frozen=True, slots=True)
class Need:
    """Something that has to be there: what it has to do, and after ``such_as`` a model for reference.

    ``group`` is the head that it stands under; ``number`` is 1 where none is said.
    """

    name: str
    number: int = 1
    detail: str = ""
    such_as: str = ""
    provider: str = ""
    group: str = ""


@dataclass(frozen=True, slots=True)
class Software:
    """A program with its exact version, what it runs on, and who brings it."""

    name: str
    version: str = ""
    use: str = ""
    provider: str = ""


@dataclass(frozen=True, slots=True)
class Duty:
    """Somebody who is needed: what they do, when, and who provides them."""

    role: str
    task: str = ""
    provider: str = ""


@dataclass(frozen=True, slots=True)
class Slot:
    """A line of the schedule; ``when`` as typed, such as 14:00 or the day before."""

    when: str
    what: str


@dataclass(frozen=True, slots=True)
class Place:
    """Something on the stage: ``x`` metres from the middle, to the right positive, ``y`` metres from the front edge."""

    name: str
    x: Decimal
    y: Decimal
    mark: Mark = Mark.PLAYER
    channels: str = ""


@dataclass(frozen=True, slots=True)
class Setup:
    """A way of doing the electronics of a work, all of it read."""

    id: int
    name: str
    kind: SetupKind = SetupKind.FULL
    differs: str = ""
    fixed_media: bool = False
    live_processing: bool = False
    amplification: bool = False
    sampler: bool = False
    description: str = ""
    synchronisation: Synchronisation = Synchronisation.NONE
    synchronisation_note: str = ""
    inputs: tuple[Input, ...] = ()
    outputs: tuple[Output, ...] = ()
    layout: LayoutName = LayoutName.NONE
    own_speakers: tuple[Speaker, ...] = ()
    equipment: tuple[Need, ...] = ()
    software: tuple[Software, ...] = ()
    media: tuple[Media, ...] = ()
    staff: tuple[Duty, ...] = ()
    schedule: tuple[Slot, ...] = ()
    places: tuple[Place, ...] = ()
    stage_width: Decimal | None = None
    stage_depth: Decimal | None = None
    sample_rate: int | None = None
    bit_depth: int | None = None
    latency_ms: Decimal | None = None
    network: str = ""
    power: str = ""
    rehearsal: str = ""
    loudest: str = ""
    flashing: str = ""
    setting_up: str = ""
    when_it_fails: str = ""
    documented: PartialDate | None = None
    tested: PartialDate | None = None
    good_for: int | None = None
