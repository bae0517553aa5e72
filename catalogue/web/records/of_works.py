"""The kinds of records that hang on a work: who has a part in it, the words about it, what it is played from."""

from __future__ import annotations

from django.db.models import F
from django.utils.translation import gettext_lazy as _

from catalogue.models import (
    Commission,
    Contributor,
    Edition,
    PerformanceNote,
    ProgrammeNote,
    Recording,
    TextSource,
)
from catalogue.web.forms.works import Group
from catalogue.web.records.kinds import Kind, Said

WORK = Said(_("Work"))
NOTES = Said(_("Notes for yourself"), _("Never printed, never public."))
LANGUAGE = Said(_("Language"), _("As a tag, such as de, el-Latn or en-GB."))
POSITION = Said(_("Place in the list"), _("Smaller numbers stand first; those with the same as they were added."))
AS_OF = Said(_("True as of"), _("The day on which it was last right: 2025, March 2025 or 3 March 2025."))
LENGTH = Said(_("Length"), _("One line up to 30 words, short up to 100, medium up to 250, long beyond."))
MOST_WORDS = Said(_("At most so many words"), _("Where somebody has set a limit."))
WRITTEN_BY = Said(_("Written by"), _("Leave empty where it is by the composer."))
KEPT = Group(_("Notes"), ("notes",))

CONTRIBUTORS = Kind(
    slug="contributors",
    model=Contributor,
    one=_("Contributor"),
    many=_("Contributors"),
    add=_("Add a contributor"),
    says=_("Librettists, arrangers, co-composers, publishers: who else has a part in a work, and which share."),
    main=(Group(_("Who"), ("name", "role", "contribution")), Group(_("The share"), ("share",))),
    more=(
        Group(_("In the catalogue"), ("person", "organisation")),
        Group(_("For registration"), ("society", "ipi", "isni")),
        Group(_("In the list"), ("position",)),
        KEPT,
    ),
    fields={
        "work": WORK,
        "billed_name": Said(_("Name")),
        "name": Said(_("Name as billed"), _("As it is printed; a person of the catalogue is recognised by it.")),
        "role": Said(_("What they did")),
        "contribution": Said(_("In more detail"), _("Such as: scenario and lyrics of act 2.")),
        "share": Said(_("Share in per cent"), _("As agreed, such as 25 or 16.667.")),
        "person": Said(_("Person of the catalogue"), _("A name that is not there yet is added.")),
        "organisation": Said(_("Organisation of the catalogue"), _("A name that is not there yet is added.")),
        "society": Said(_("Collecting society")),
        "ipi": Said(_("IPI name number")),
        "isni": Said(_("ISNI")),
        "position": POSITION,
        "notes": NOTES,
    },
    columns=("billed_name", "role", "work", "share"),
    order=("position", "pk"),
    along=("person", "organisation"),
    looks={"share": "num end"},
    tells={"share": _("{} per cent")},
)

COMMISSIONS = Kind(
    slug="commissions",
    model=Commission,
    one=_("Commission"),
    many=_("Commissions"),
    add=_("Add a commission"),
    says=_("Who asked for a work, who paid, and when it is to be delivered."),
    main=(
        Group(_("Who commissioned it"), ("name", "place", "funder")),
        Group(_("When"), ("agreed", "due", "delivered"), in_a_row=True),
    ),
    more=(Group(_("In the catalogue"), ("organisation",)), Group(_("The contract"), ("fee", "reference")), KEPT),
    fields={
        "work": WORK,
        "body": Said(_("Commissioned by")),
        "name": Said(_("Commissioned by"), _("As it is printed.")),
        "place": Said(_("Place")),
        "funder": Said(
            _("With funds from"), _("A commission that names no funder may be taken for a friendly request.")
        ),
        "organisation": Said(_("Organisation of the catalogue"), _("A name that is not there yet is added.")),
        "agreed": Said(_("Agreed")),
        "due": Said(_("To be delivered")),
        "delivered": Said(_("Delivered")),
        "fee": Said(_("Fee"), _("Never printed.")),
        "reference": Said(_("Contract number"), _("Never printed.")),
        "notes": NOTES,
    },
    columns=("body", "work", "funder", "due", "delivered"),
    order=(F("due").desc(nulls_last=True), "pk"),
    along=("organisation",),
    tells={"funder": _("with funds from {}"), "due": _("due {}"), "delivered": _("delivered {}")},
)

PROGRAMME_NOTES = Kind(
    slug="programme-notes",
    model=ProgrammeNote,
    one=_("Programme note"),
    many=_("Programme notes"),
    add=_("Add a programme note"),
    says=_("Texts about a work in several lengths and languages, each with the day on which it was last right."),
    main=(Group(_("The text"), ("body", "length", "language")), Group(_("Whose it is"), ("as_of", "author"))),
    more=(Group(_("More"), ("heading", "most_words")), KEPT),
    fields={
        "work": WORK,
        "heading": Said(_("Heading")),
        "body": Said(_("Text"), _("As it is to be printed; an empty line begins a paragraph.")),
        "length": LENGTH,
        "language": LANGUAGE,
        "as_of": AS_OF,
        "author": WRITTEN_BY,
        "most_words": MOST_WORDS,
        "words": Said(_("Words")),
        "notes": NOTES,
    },
    columns=("__str__", "work", "length", "language", "words", "as_of"),
    looks={"words": "num end"},
    tells={"words": _("{} words"), "as_of": _("true as of {}")},
)

PERFORMANCE_NOTES = Kind(
    slug="performance-notes",
    model=PerformanceNote,
    one=_("Performance note"),
    many=_("Performance notes"),
    add=_("Add a performance note"),
    says=_("What is told in front of the music: techniques, seating, preparation, practising, the sound desk."),
    main=(Group(_("The note"), ("heading", "body")), Group(_("For whom"), ("purpose", "concerns", "first_at"))),
    more=(Group(_("More"), ("language", "position")), KEPT),
    fields={
        "work": WORK,
        "heading": Said(_("Heading"), _("Such as: muted strings.")),
        "body": Said(_("What to do")),
        "purpose": Said(_("It is")),
        "concerns": Said(_("For whom"), _("Such as: violins. Leave empty where it is for everybody.")),
        "first_at": Said(_("First needed at"), _("Such as: bar 37, or letter C.")),
        "language": LANGUAGE,
        "position": POSITION,
        "notes": NOTES,
    },
    columns=("__str__", "work", "concerns", "first_at"),
    order=("position", "pk"),
    again=("concerns",),
)

EDITIONS = Kind(
    slug="editions",
    model=Edition,
    one=_("Edition"),
    many=_("Editions"),
    add=_("Add an edition"),
    says=_("Scores and parts as they can be had, in C or transposed, with publisher and numbers."),
    main=(
        Group(_("What it is"), ("kind", "pitch")),
        Group(_("Where it can be had"), ("publisher", "number", "ismn", "published", "on_hire")),
    ),
    more=(
        Group(_("On paper"), ("pages", "paper", "binding", "stave_height")),
        Group(_("In the score"), ("accidentals",)),
        Group(_("On the title page"), ("printing", "copyright_line")),
        Group(_("Versions"), ("version", "replaces")),
        Group(_("Known mistakes"), ("errata", "errata_on")),
        Group(_("More on the publisher"), ("publisher_name",)),
        KEPT,
    ),
    fields={
        "work": WORK,
        "kind": Said(_("What it is")),
        "pitch": Said(_("Transposing instruments are written")),
        "accidentals": Said(_("An accidental holds")),
        "publisher": Said(_("Publisher"), _("A name that is not in the catalogue yet is added.")),
        "publisher_name": Said(_("Publisher as printed"), _("Where it differs.")),
        "published_by": Said(_("Publisher")),
        "number": Said(_("Edition number")),
        "ismn": Said(_("ISMN")),
        "published": Said(_("Published")),
        "on_hire": Said(_("On hire only")),
        "pages": Said(_("Pages")),
        "paper": Said(_("Paper"), _("Such as: A3, or 9 × 12 in.")),
        "binding": Said(_("Binding")),
        "version": Said(_("Version"), _("Such as: 2, or revised 2026.")),
        "replaces": Said(_("It replaces"), _("The edition before it; who holds that one is listed here.")),
        "errata": Said(_("Errata"), _("One a line, such as: Horn 2, bar 37: f, not e.")),
        "errata_on": Said(_("List of"), _("The day of the list of errata.")),
        "printing": Said(_("Printing"), _("Such as: Second printing with corrections, February 2026.")),
        "copyright_line": Said(_("Copyright line"), _("As it is printed, such as: © 2026 and your name.")),
        "stave_height": Said(_("Stave height in mm"), _("Parts are usually asked for in 7 to 8.5 mm.")),
        "notes": NOTES,
    },
    columns=("__str__", "work", "pitch", "published", "ismn"),
    along=("publisher", "replaces__publisher"),
)

TEXT_SOURCES = Kind(
    slug="texts",
    model=TextSource,
    one=_("Text and its rights"),
    many=_("Texts and their rights"),
    add=_("Add a text"),
    says=_("Where the words of a work come from, and whether they may be set, sung and printed."),
    main=(
        Group(_("The text"), ("author", "title", "source", "language")),
        Group(_("The rights"), ("clearance", "rights_holder", "credit")),
    ),
    more=(
        Group(_("More on the text"), ("isbn", "body")),
        Group(_("In translation"), ("translation", "translation_language", "translator", "translation_clearance")),
        Group(_("The permission"), ("contact", "covers")),
        Group(_("When"), ("asked", "granted", "expires"), in_a_row=True),
        KEPT,
    ),
    fields={
        "work": WORK,
        "author": Said(_("Author")),
        "title": Said(_("Title of the text")),
        "source": Said(_("Where it was found"), _("Book, publisher, year.")),
        "language": LANGUAGE,
        "translator": Said(_("Translated by")),
        "clearance": Said(_("Permission to set it")),
        "rights_holder": Said(_("Who holds the rights")),
        "contact": Said(_("How they are reached")),
        "asked": Said(_("Asked")),
        "granted": Said(_("Granted")),
        "expires": Said(_("Until")),
        "credit": Said(_("Line to be printed"), _("In the words of whoever holds the rights.")),
        "covers": Said(_("What it covers"), _("Such as: performance, score, recording; worldwide.")),
        "isbn": Said(_("ISBN")),
        "body": Said(_("The words"), _("As they are sung; an empty line between stanzas. Printed only once cleared.")),
        "translation": Said(_("The words in translation"), _("Stanza by stanza, as the words.")),
        "translation_language": Said(_("Language of the translation"), _("As a tag, such as de or en-GB.")),
        "translation_clearance": Said(_("Permission to print the translation")),
        "notes": NOTES,
    },
    columns=("__str__", "work", "clearance", "rights_holder", "expires"),
    tells={"rights_holder": _("rights with {}"), "expires": _("until {}")},
)

RECORDINGS = Kind(
    slug="recordings",
    model=Recording,
    one=_("Recording"),
    many=_("Recordings"),
    add=_("Add a recording"),
    says=_("Releases, and recordings you keep yourself: who plays, which part to send, who may hear it."),
    main=(
        Group(_("Who and how"), ("performers", "kind", "form")),
        Group(_("To be heard"), ("address", "excerpt_from", "excerpt_until", "permission")),
    ),
    more=(
        Group(_("When and where"), ("recorded", "place", "duration", "performance")),
        Group(_("As it was released"), ("title", "label", "number", "released")),
        Group(_("Numbers"), ("isrc", "ean")),
        Group(_("More"), ("file_name", "permission_note")),
        Group(_("For yourself"), ("quality",)),
        KEPT,
    ),
    fields={
        "work": WORK,
        "performers": Said(_("Who plays"), _("As it is cited.")),
        "kind": Said(_("How it was made")),
        "form": Said(_("In what form"), _("Only releases are cited in lists.")),
        "duration": Said(_("Duration")),
        "address": Said(_("Where it can be heard")),
        "excerpt_from": Said(_("Excerpt from"), _("Minutes and seconds into the recording, such as 3:20.")),
        "excerpt_until": Said(_("Excerpt until")),
        "permission": Said(_("May be shared"), _("As those who are heard on it have agreed.")),
        "permission_note": Said(_("Who said so"), _("Such as: the players by letter, May 2025.")),
        "recorded": Said(_("Recorded")),
        "place": Said(_("Place")),
        "performance": Said(_("Performance that was recorded")),
        "title": Said(_("Title of the release")),
        "label": Said(_("Label")),
        "number": Said(_("Label’s number")),
        "released": Said(_("Released")),
        "isrc": Said(_("ISRC")),
        "ean": Said(_("EAN or UPC")),
        "quality": Said(
            _("How good the recording is"), _("For choosing what to send to a call; never printed, never public.")
        ),
        "file_name": Said(_("Where you keep it"), _("Folder and file, for yourself.")),
        "notes": NOTES,
    },
    columns=("__str__", "work", "kind", "form", "duration", "permission"),
    again=("performance",),
    looks={"duration": "num end"},
)
