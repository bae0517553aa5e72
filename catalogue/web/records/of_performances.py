"""The kinds of records around performances: sessions, steps, returns, and the days that steps are due by."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.models import LeadTimes, Return, Session, SocietyDeadline, Step
from catalogue.web.forms.works import Group
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.records.of_works import KEPT, NOTES

PERFORMANCE = Said(_("Performance"))

SESSIONS = Kind(
    slug="sessions",
    model=Session,
    one=_("Rehearsal or session"),
    many=_("Rehearsals and sessions"),
    add=_("Add a rehearsal or session"),
    says=_("Rehearsals, get-ins, line checks and talks of a performance, each at its own hour; calendars show them."),
    main=(
        Group(_("What it is"), ("performance", "kind", "title")),
        Group(_("When and where"), ("date", "time", "until", "place")),
    ),
    more=(Group(_("Which clocks"), ("zone",)), KEPT),
    fields={
        "performance": PERFORMANCE,
        "kind": Said(_("What it is")),
        "title": Said(_("Called"), _("Such as: tutti with electronics. Leave empty where the kind says it.")),
        "date": Said(_("Day")),
        "time": Said(_("From"), _("By the clocks there: 14:30.")),
        "until": Said(_("Until")),
        "place": Said(_("Where"), _("Where it is not the hall.")),
        "zone": Said(_("Clocks"), _("Only where they are not those of the performance, such as Europe/Paris.")),
        "notes": NOTES,
    },
    columns=("__str__", "performance", "time", "until", "place"),
    order=("-date", "-time", "pk"),
    along=("performance__venue",),
    again=("kind", "date", "place"),
)

STEPS = Kind(
    slug="steps",
    model=Step,
    one=_("Step"),
    many=_("Steps"),
    add=_("Add a step"),
    says=_("What has to happen around a performance, with a day of its own or a word on how it stands."),
    main=(
        Group(_("What has to happen"), ("performance", "kind", "label")),
        Group(_("How it stands"), ("state", "due", "done_on")),
    ),
    more=(KEPT,),
    fields={
        "performance": PERFORMANCE,
        "kind": Said(_("What it is"), _("“Other” is a step of your own, which you name below.")),
        "label": Said(_("Your own name for it"), _("Such as: send the score to the sound engineer.")),
        "state": Said(_("How it stands")),
        "due": Said(_("Due on"), _("Goes before every lead time. Leave empty to count it from the performance.")),
        "done_on": Said(_("Done on")),
        "notes": NOTES,
    },
    columns=("__str__", "performance", "state", "due", "done_on"),
    order=("-performance__first_day", "pk"),
    along=("performance__venue",),
    again=("kind",),
)

RETURNS = Kind(
    slug="returns",
    model=Return,
    one=_("Return to a society"),
    many=_("Returns to societies"),
    add=_("Add a return"),
    says=_("What a society for authors’ rights was told of a performance, when, and what it answered."),
    main=(
        Group(_("The return"), ("performance", "society")),
        Group(_("Filed"), ("filed", "reference", "answer")),
    ),
    more=(Group(_("Until when it is taken"), ("until", "rule_read"), in_a_row=True), KEPT),
    fields={
        "performance": PERFORMANCE,
        "society": Said(_("Society"), _("Your own, the publisher’s, or a foreign one: one return each.")),
        "filed": Said(_("Filed on")),
        "reference": Said(_("Their reference")),
        "answer": Said(_("What they answered")),
        "until": Said(_("Taken until")),
        "rule_read": Said(_("Read in their rules on"), _("Societies change what they ask.")),
        "notes": NOTES,
    },
    columns=("__str__", "performance", "filed", "until", "answer"),
    order=("-filed", "pk"),
    along=("performance__venue",),
    again=("society",),
)

DEADLINES = Kind(
    slug="society-deadlines",
    model=SocietyDeadline,
    one=_("Society’s deadline"),
    many=_("Societies’ deadlines"),
    add=_("Add a society’s deadline"),
    says=_(
        "Until when a society for authors’ rights takes returns, as you read it in its rules, and when you read it. "
        "From it Today, performances, calendars and the return reckon the day; look it up again each year."
    ),
    main=(
        Group(_("The deadline"), ("society", "rule", "what")),
        Group(_("Which performances"), ("scope", "country")),
        Group(_("Where it says so"), ("source", "read_on")),
    ),
    more=(KEPT,),
    fields={
        "society": Said(_("Society"), _("Spelled as in the returns to it.")),
        "rule": Said(
            _("Until when"),
            _(
                "So long after each performance: 12 months. By one day of each year, for a season: 15 October after "
                "31 August. Or a day for a period: 31 March 2027 for 2026."
            ),
        ),
        "what": Said(_("What is to be sent"), _("Such as: return with the printed programme.")),
        "scope": Said(_("About performances")),
        "country": Said(_("Country"), _("Only where the deadline is about one.")),
        "source": Said(_("Source"), _("Such as: members’ handbook, page 12.")),
        "read_on": Said(_("Read on"), _("Societies change what they ask.")),
        "notes": NOTES,
    },
    columns=("__str__", "scope", "country", "source", "read_on"),
    order=("society", "pk"),
    again=("society", "source", "read_on"),
)

LEAD_TIMES = Kind(
    slug="lead-times",
    model=LeadTimes,
    one=_("Lead times"),
    many=_("Lead times"),
    add=_("Add lead times"),
    says=_(
        "How long before or after a performance each step is due: 6 weeks, 10 days, or not needed. "
        "A presenter’s own go before yours; what is left empty is as usual."
    ),
    main=(
        Group(_("For whom"), ("organisation",)),
        Group(
            _("Before the performance"),
            ("contract", "rider", "parts", "texts", "stream", "recording_request", "travel"),
        ),
    ),
    more=(
        Group(_("On the days before"), ("electronics",)),
        Group(_("After the performance"), ("lasted", "thanks", "set_back", "recording", "review", "filing")),
        KEPT,
    ),
    fields={
        "organisation": Said(_("Presenter"), _("Leave empty where they are for all.")),
        "contract": Said(_("Contract"), _("Usually 90 days.")),
        "rider": Said(_("Technical rider"), _("Usually 8 weeks.")),
        "parts": Said(_("Parts"), _("Usually 8 weeks.")),
        "texts": Said(_("Programme note and biography"), _("Usually 6 weeks.")),
        "stream": Said(_("Permission to stream"), _("Usually 6 weeks.")),
        "recording_request": Said(_("Recording asked for"), _("Usually 4 weeks.")),
        "travel": Said(_("Travel"), _("Usually 4 weeks.")),
        "electronics": Said(_("Electronics test"), _("Usually 1 week.")),
        "lasted": Said(_("Duration as played"), _("Usually 1 day.")),
        "thanks": Said(_("Thanks"), _("Usually 1 week.")),
        "set_back": Said(_("Set of parts back"), _("Usually 2 weeks.")),
        "recording": Said(_("Recording received"), _("Usually 30 days.")),
        "review": Said(_("Reviews"), _("Usually 30 days.")),
        "filing": Said(_("Return filed"), _("Usually 90 days; societies differ.")),
        "notes": NOTES,
    },
    columns=("__str__", "contract", "parts", "texts", "filing"),
    order=("organisation__name", "pk"),
    along=("organisation",),
)
