"""The kinds of records that tell players what to bring and what signs mean: percussion, notation, tunings."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.models import NotationSign, PercussionInstrument, Retuning, TuningSystem
from catalogue.web.forms.works import Group
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.records.of_works import KEPT, NOTES, POSITION, WORK

PERCUSSION = Kind(
    slug="percussion",
    model=PercussionInstrument,
    one=_("Percussion instrument"),
    many=_("Percussion list"),
    add=_("Add a percussion instrument"),
    says=_("What each percussion player needs, with sizes and ranges, and what is shared with whom."),
    main=(
        Group(_("Which"), ("player", "instrument", "number")),
        Group(_("In more detail"), ("size", "compass", "pitches", "beaters")),
    ),
    more=(Group(_("More"), ("shared_with", "needs_power", "provided_by", "position")), KEPT),
    fields={
        "work": WORK,
        "player": Said(_("Player"), _("The number of the player who has it.")),
        "instrument": Said(_("Instrument")),
        "number": Said(_("How many")),
        "size": Said(_("Size"), _("Such as: 26 in, or low.")),
        "compass": Said(_("Range"), _("Of keyboards, such as: 4.3 octaves, or C3 to F6.")),
        "pitches": Said(_("Pitches"), _("Where only some are needed, such as: crotales C6, E6, G sharp 6.")),
        "beaters": Said(_("Beaters"), _("Special ones, bows among them.")),
        "shared_with": Said(_("Shared with"), _("Such as: player 2.")),
        "needs_power": Said(_("Needs a socket"), _("Such as: a vibraphone whose motor is used.")),
        "provided_by": Said(_("Brought by")),
        "position": POSITION,
        "notes": NOTES,
    },
    columns=("instrument", "work", "player", "number", "size", "compass"),
    order=("work", "player", "position", "pk"),
    again=("player",),
    tells={"player": _("player {}"), "number": _("how many: {}")},
    looks={"player": "num end", "number": "num end"},
)

SIGNS = Kind(
    slug="signs",
    model=NotationSign,
    one=_("Sign of the notation key"),
    many=_("Notation key"),
    add=_("Add a sign"),
    says=_("Every sign that is not usual: what it is called, what it alters, what to do, where it first stands."),
    main=(
        Group(_("The sign"), ("group", "smufl", "name")),
        Group(_("What it means"), ("cents", "meaning", "concerns", "first_at")),
    ),
    more=(Group(_("More"), ("system", "position")), KEPT),
    fields={
        "work": WORK,
        "group": Said(_("What sort of sign")),
        "smufl": Said(_("Sign"), _("By its name in SMuFL, the standard of music fonts; those in the list are drawn.")),
        "name": Said(_("What it is called"), _("As the key prints it, such as: quarter-tone sharp.")),
        "cents": Said(_("Alters by so many cents"), _("50 is a quarter-tone higher, -50 one lower.")),
        "meaning": Said(_("What to do")),
        "concerns": Said(_("For whom"), _("Such as: strings. Leave empty where it is for everybody.")),
        "first_at": Said(_("First stands at"), _("Such as: bar 37, or letter C.")),
        "system": Said(_("System"), _("Where the signs come from, with the book where there is one.")),
        "position": POSITION,
        "notes": NOTES,
    },
    columns=("name", "work", "group", "cents", "first_at"),
    order=("work", "position", "pk"),
    again=("group", "system"),
    looks={"cents": "num end"},
    tells={"cents": _("{} cents")},
)

TUNINGS = Kind(
    slug="tunings",
    model=TuningSystem,
    one=_("Tuning system"),
    many=_("Tuning systems"),
    add=_("Add a tuning system"),
    says=_("How the pitches of a work are tuned, and to which frequency."),
    main=(
        Group(_("The system"), ("name", "divisions", "description")),
        Group(_("The pitch"), ("reference_note", "reference_hertz")),
    ),
    more=(Group(_("More"), ("source",)), KEPT),
    fields={
        "work": WORK,
        "name": Said(_("Name"), _("Such as: just intonation on C.")),
        "divisions": Said(
            _("Equal divisions of the octave"), _("Such as 24 for quarter-tones; leave empty where they are unequal.")
        ),
        "description": Said(_("How it is made")),
        "reference_note": Said(_("Note"), _("Such as: A4.")),
        "reference_hertz": Said(_("Its frequency in Hz"), _("Such as 442.")),
        "source": Said(_("Where it comes from")),
        "notes": NOTES,
    },
    columns=("name", "work", "divisions", "reference_note", "reference_hertz"),
    looks={"divisions": "num end", "reference_hertz": "num end"},
    tells={"divisions": _("{} to the octave"), "reference_hertz": _("{} Hz")},
)

RETUNINGS = Kind(
    slug="retunings",
    model=Retuning,
    one=_("Retuned instrument"),
    many=_("Retuned instruments"),
    add=_("Add a retuned instrument"),
    says=_("Instruments that are not tuned as usual, and how they are then written."),
    main=(
        Group(_("The instrument"), ("instrument", "tuned_to", "cents")),
        Group(_("For the player"), ("written", "preparation")),
    ),
    more=(Group(_("More"), ("position",)), KEPT),
    fields={
        "work": WORK,
        "instrument": Said(_("Instrument"), _("Such as: violin 2, string IV.")),
        "tuned_to": Said(_("Tuned to"), _("Such as: B1 G2 D3 A3.")),
        "cents": Said(_("Or by so many cents"), _("-50 is a quarter-tone lower.")),
        "written": Said(_("How it is written"), _("As it sounds, or as it is fingered.")),
        "preparation": Said(_("Preparation"), _("How long it takes, whether a second instrument is needed.")),
        "position": POSITION,
        "notes": NOTES,
    },
    columns=("instrument", "work", "tuned_to", "cents"),
    order=("work", "position", "pk"),
    looks={"cents": "num end"},
    tells={"tuned_to": _("tuned to {}"), "cents": _("{} cents")},
)
