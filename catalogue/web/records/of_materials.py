"""The kinds of records about performance material: sets, to whom they went, and the rules on which they are lent."""

from __future__ import annotations

from django.db.models import F
from django.utils.translation import gettext_lazy as _

from catalogue.models import Hire, HireTerms, MaterialRequirements, MaterialSet
from catalogue.web.forms.works import Group
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.records.of_works import KEPT, NOTES, WORK

DAY = _("A day, such as 5 June 2026.")
CURRENCY = Said(_("Currency"), _("Three letters, such as EUR."))
PRINTED = _("Printed on the delivery note. Leave empty to print the usual sentence.")

SETS = Kind(
    slug="sets",
    model=MaterialSet,
    one=_("Set of material"),
    many=_("Sets of material"),
    add=_("Add a set"),
    says=_("Each set of parts with its number: for how many strings it is made up, how good it is, where it lies."),
    main=(
        Group(_("Which set"), ("number", "form", "edition")),
        Group(_("Strings"), ("strings", "extra")),
        Group(_("How it is"), ("condition", "kept_at")),
    ),
    more=(Group(_("More"), ("made",)), KEPT),
    fields={
        "work": WORK,
        "number": Said(_("Set number"), _("As it stands on the covers.")),
        "form": Said(_("On paper or as files")),
        "edition": Said(_("Edition"), _("Known mistakes of the edition go with the set.")),
        "strings": Said(
            _("Made up for so many strings"),
            _("Five numbers, such as 14.12.10.8.6. Leave empty to take those of the performance, or of the work."),
        ),
        "extra": Said(_("Spare copies of each string part")),
        "condition": Said(_("Condition")),
        "kept_at": Said(_("Where it is kept")),
        "made": Said(_("Printed or made")),
        "notes": NOTES,
    },
    columns=("__str__", "work", "form", "condition", "kept_at"),
    order=("work", "number", "pk"),
    along=("edition", "edition__publisher"),
)

HIRES = Kind(
    slug="hires",
    model=Hire,
    one=_("Hire"),
    many=_("Hires"),
    add=_("Add a hire"),
    says=_(
        "Material that goes to somebody, on hire, for perusal or sold: what went out, when it is due, what came back."
    ),
    main=(
        Group(_("What, and to whom"), ("work", "material_set", "purpose", "name")),
        Group(_("For which performances"), ("performances",)),
        Group(_("When"), ("out_on", "due_on"), in_a_row=True),
        Group(_("On which terms"), ("terms",)),
    ),
    more=(
        Group(_("Fee"), ("fee", "currency", "paid"), in_a_row=True),
        Group(_("Where it goes"), ("attention", "address", "email", "organisation", "person")),
        Group(_("On the note"), ("number", "order_number", "carrier", "enclosed")),
        Group(_("Extension"), ("extended_to", "extension_fee"), in_a_row=True),
        Group(_("On its return"), ("back_on", "erasing_hours"), in_a_row=True),
        KEPT,
    ),
    fields={
        "work": WORK,
        "material_set": Said(_("Set"), _("Nobody else can have it on the same days.")),
        "purpose": Said(_("For")),
        "holder": Said(_("Who has it")),
        "name": Said(_("Who has it"), _("As it is printed; one of the catalogue is recognised by the name.")),
        "performances": Said(_("Performances")),
        "out_on": Said(_("Goes out"), DAY),
        "due_on": Said(_("Due back"), _("Leave empty to take it from the terms.")),
        "due": Said(_("Due back")),
        "terms": Said(_("Terms of hire")),
        "fee": Said(_("Fee")),
        "currency": Said(_("Currency"), _("Three letters, such as EUR. Leave empty to take that of the terms.")),
        "paid": Said(_("Paid so far")),
        "attention": Said(_("For the attention of")),
        "address": Said(_("Address"), _("Leave empty to take that of the organisation.")),
        "email": Said(_("E-mail")),
        "organisation": Said(_("Organisation of the catalogue"), _("A name that is not there yet is added.")),
        "person": Said(_("Person of the catalogue"), _("A name that is not there yet is added.")),
        "number": Said(_("Number of the note"), _("Leave empty to take the next of the year.")),
        "order_number": Said(_("Their order number")),
        "carrier": Said(_("How it is sent"), _("Such as: traced post, one parcel, 9.4 kg.")),
        "enclosed": Said(_("Enclosed besides"), _("Such as: return label.")),
        "extended_to": Said(_("Extended to"), DAY),
        "extension_fee": Said(_("Fee of the extension"), _("Leave empty to have it reckoned by the terms.")),
        "back_on": Said(_("Back on"), DAY),
        "erasing_hours": Said(_("Hours of erasing")),
        "notes": NOTES,
    },
    columns=("holder", "work", "purpose", "out_on", "due", "back_on"),
    order=(F("out_on").desc(nulls_first=True), "-pk"),
    along=("person", "organisation", "terms", "material_set__edition"),
    tells={"out_on": _("out {}"), "due": _("due {}"), "back_on": _("back {}")},
    again=("name", "terms"),
)

TERMS = Kind(
    slug="hire-terms",
    model=HireTerms,
    one=_("Terms of hire"),
    many=_("Terms of hire"),
    add=_("Add terms of hire"),
    says=_("The rules of the house: how long, what lateness and losses cost, how parts may be marked."),
    main=(
        Group(_("Whose they are"), ("name", "lender", "address")),
        Group(_("How long"), ("days_after", "period_days"), in_a_row=True),
        Group(_("When it is late"), ("late_percent", "late_step"), in_a_row=True),
    ),
    more=(
        Group(_("Where to reach you"), ("email", "telephone"), in_a_row=True),
        Group(_("Other charges"), ("currency", "extension_percent", "part_charge", "score_charge", "erasing_rate")),
        Group(_("Rules"), ("marking", "copying", "returning")),
        KEPT,
    ),
    fields={
        "name": Said(_("Name"), _("Such as: orchestral sets, 2026.")),
        "lender": Said(_("Lender as printed"), _("Leave empty to print the composer.")),
        "address": Said(_("Address of the library")),
        "email": Said(_("E-mail")),
        "telephone": Said(_("Telephone")),
        "days_after": Said(_("Due so many days after the last performance")),
        "period_days": Said(_("Otherwise so many days after it went out")),
        "currency": CURRENCY,
        "late_percent": Said(_("Late charge in per cent of the fee")),
        "late_step": Said(_("Charged"), _("Once, or for each week or month begun.")),
        "extension_percent": Said(_("Extension, per cent of the fee for each month begun")),
        "part_charge": Said(_("A part that is missing")),
        "score_charge": Said(_("A score that is missing")),
        "erasing_rate": Said(_("Erasing, for each hour")),
        "marking": Said(_("Markings"), PRINTED),
        "copying": Said(_("Copies"), PRINTED),
        "returning": Said(_("The way back"), PRINTED),
        "notes": NOTES,
    },
    columns=("name", "days_after", "late_percent", "currency"),
    order=("name", "pk"),
    looks={"days_after": "num end", "late_percent": "num end"},
)

REQUIREMENTS = Kind(
    slug="requirements",
    model=MaterialRequirements,
    one=_("Requirements for material"),
    many=_("Requirements for material"),
    add=_("Add requirements"),
    says=_("What presenters and libraries ask of scores and parts; each PDF that is kept is checked against them."),
    main=(
        Group(_("Who asks"), ("organisation", "name", "material")),
        Group(_("Paper"), ("papers",)),
        Group(_("Height of the staves in mm"), ("stave_least", "stave_most"), in_a_row=True),
        Group(_("The files"), ("file_names", "bookmarks")),
    ),
    more=(Group(_("Binding"), ("binding",)), KEPT),
    fields={
        "organisation": Said(_("Organisation"), _("A name that is not in the catalogue yet is added.")),
        "name": Said(_("Name"), _("Where it is not what an organisation asks, or one that asks this and that.")),
        "material": Said(_("Asked of"), _("Scores and parts alike, where nothing is chosen.")),
        "papers": Said(_("Paper"), _("Any of these, such as: A3, B4, 10 × 13 in.")),
        "binding": Said(_("Binding"), _("Such as: spiral.")),
        "stave_least": Said(_("At least")),
        "stave_most": Said(_("At most")),
        "file_names": Said(
            _("Names of files"),
            _("A pattern: * is anything, ? one character, [0-9] one digit, as in [0-9][0-9] - *.pdf."),
        ),
        "bookmarks": Said(_("With bookmarks")),
        "notes": NOTES,
    },
    columns=("__str__", "material", "papers", "binding", "file_names"),
    along=("organisation",),
)
