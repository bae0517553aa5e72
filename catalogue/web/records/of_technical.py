"""The kinds of records that say what a work needs besides its players: technical setups, and riders."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.models import Rider, TechnicalSetup
from catalogue.web.forms.works import Group
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.records.of_works import KEPT, NOTES, POSITION, WORK

EQUIPMENT_HINT = _(
    "One thing a line: 8 loudspeakers; full range, alike; such as …; presenter. "
    "A line that ends with a colon is a head."
)
SCHEDULE_HINT = _("One a line: 14:00; rehearsal with electronics.")

SETUPS = Kind(
    slug="setups",
    model=TechnicalSetup,
    one=_("Technical setup"),
    many=_("Technical setups"),
    add=_("Add a technical setup"),
    says=_(
        "How the electronics of a work are done: as meant, with less, or when something fails. Riders are made of it."
    ),
    main=(
        Group(_("Which one it is"), ("name", "kind", "description")),
        Group(_("Channels"), ("inputs", "outputs", "layout")),
        Group(_("What has to be there"), ("equipment",)),
    ),
    more=(
        Group(_("With less"), ("differs",)),
        Group(_("Programs"), ("software",)),
        Group(_("What sounds"), ("fixed_media", "live_processing", "amplification", "sampler")),
        Group(_("Keeping together"), ("synchronisation", "synchronisation_note")),
        Group(_("Loudspeakers"), ("speakers",)),
        Group(_("Media files"), ("media",)),
        Group(_("Figures"), ("sample_rate", "bit_depth", "latency_ms"), in_a_row=True),
        Group(_("People and time"), ("staff", "schedule", "rehearsal")),
        Group(_("The stage"), ("stage_width", "stage_depth", "places")),
        Group(_("The house"), ("power", "network")),
        Group(_("Cautions"), ("loudest", "flashing")),
        Group(_("Setting up"), ("setting_up", "when_it_fails")),
        Group(_("How old this is"), ("documented", "tested", "good_for", "position")),
        KEPT,
    ),
    fields={
        "work": WORK,
        "name": Said(_("Name"), _("Such as: as meant, stereo, without a technician.")),
        "kind": Said(_("What it is for"), _("Reduced is with less; fallback is for when something fails.")),
        "differs": Said(
            _("What is different in it"), _("For a reduced setup: what is left out, and what is lost by it.")
        ),
        "description": Said(_("In a few sentences"), _("What the electronics do, and what the technician does.")),
        "fixed_media": Said(_("Fixed media")),
        "live_processing": Said(_("Live processing")),
        "amplification": Said(_("Amplification")),
        "sampler": Said(_("Sampler or electronic keyboard")),
        "synchronisation": Said(_("Players and electronics keep together by")),
        "synchronisation_note": Said(_("In more detail"), _("Who hears a click, who presses the pedal.")),
        "inputs": Said(
            _("Input list"),
            _(
                "One channel a line: 1; violin; clip condenser; boom; 48 V; to live; composer. "
                "Rows of a spreadsheet can be pasted."
            ),
        ),
        "outputs": Said(
            _("Output list"),
            _("One a line: 1-4; ring; electronics; presenter, or 5; in-ear; click; for conductor; hall."),
        ),
        "layout": Said(_("Layout"), _("As named channels; minus is left seen from the audience.")),
        "speakers": Said(
            _("Own layout"),
            _("One loudspeaker a line: name; azimuth; elevation. Write “low” for a subwoofer’s channel."),
        ),
        "equipment": Said(_("Equipment"), EQUIPMENT_HINT),
        "software": Said(_("Computer and software"), _("One a line: name; exact version; what for; composer.")),
        "media": Said(
            _("Media files"), _("One a line: name.wav; 8 channels; 48 kHz; 24 bit; 2:58; SHA-256; what for.")
        ),
        "sample_rate": Said(_("Sample rate in Hz")),
        "bit_depth": Said(_("Bits")),
        "latency_ms": Said(_("Latency in ms")),
        "staff": Said(_("Staff"), _("One a line: sound engineer; whole day; presenter.")),
        "schedule": Said(_("Usual schedule"), SCHEDULE_HINT),
        "rehearsal": Said(_("Rehearsal"), _("How long with electronics, and what else the hall is needed for.")),
        "stage_width": Said(_("Stage at least so wide, in m")),
        "stage_depth": Said(_("Stage at least so deep, in m")),
        "places": Said(
            _("Places on the stage"),
            _(
                "One a line: flute; -1.5; 3; 1 is 1.5 m left of the middle, 3 m from the front edge, on channel 1. "
                "Players who are not named here are placed by section."
            ),
        ),
        "power": Said(_("Power")),
        "network": Said(_("Network")),
        "loudest": Said(
            _("Loudest passage"),
            _("Level, where and how it was measured, averaged over how long, such as: about 92 dB(A)…"),
        ),
        "flashing": Said(
            _("Flashing light"), _("Rate, length and place in the work. Leave empty where there is none.")
        ),
        "setting_up": Said(_("How it is set up from nothing")),
        "when_it_fails": Said(_("When something fails"), _("What to do, and who decides.")),
        "documented": Said(_("Documented"), _("When all this was last true.")),
        "tested": Said(_("Last tested"), _("When it was last set up from nothing.")),
        "good_for": Said(
            _("Holds for how many months"),
            _("After so many months it is called too old to be sent unseen; 24 where nothing is said."),
        ),
        "position": POSITION,
        "notes": NOTES,
    },
    columns=("name", "work", "kind", "layout", "synchronisation", "documented"),
    tells={"documented": _("documented {}")},
    order=("work", "position", "pk"),
)

RIDERS = Kind(
    slug="riders",
    model=Rider,
    one=_("Technical rider"),
    many=_("Technical riders"),
    add=_("Add a technical rider"),
    says=_("What a presenter is asked for one work in one performance, sent as a link and answered item by item."),
    main=(
        Group(_("For what"), ("work", "performance", "setup")),
        Group(_("Whom to ask"), ("contact_name", "contact_email", "contact_telephone")),
        Group(_("What is needed"), ("equipment", "schedule")),
    ),
    more=(Group(_("More"), ("contact_hours", "summary", "travel")), KEPT),
    fields={
        "work": WORK,
        "performance": Said(_("Performance")),
        "setup": Said(_("Technical setup"), _("None for a work without electronics.")),
        "contact_name": Said(_("Name"), _("One person whom everybody may ask.")),
        "contact_email": Said(_("E-mail")),
        "contact_telephone": Said(_("Telephone")),
        "contact_hours": Said(_("Hours")),
        "summary": Said(_("In a few sentences"), _("Leave empty to take those of the setup.")),
        "equipment": Said(_("Also needed"), EQUIPMENT_HINT),
        "schedule": Said(
            _("Schedule of the day"), _("Leave empty to take that of the setup. One a line: 14:00; rehearsal.")
        ),
        "travel": Said(_("Travel and load-in")),
        "notes": NOTES,
    },
    columns=("__str__", "work", "performance", "setup"),
    along=("performance", "performance__venue", "setup"),
    again=("performance",),
)
