"""The kinds of records of the whole catalogue: people and bodies, biographies, awards, reviews, pictures."""

from __future__ import annotations

from django.db.models import F
from django.utils.translation import gettext_lazy as _

from catalogue.models import (
    Award,
    BilledName,
    Biography,
    ContactPerson,
    Organisation,
    Person,
    Picture,
    Referee,
    Review,
    Venue,
)
from catalogue.web.forms.works import Group
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.records.of_works import (
    AS_OF,
    KEPT,
    LANGUAGE,
    LENGTH,
    MOST_WORDS,
    NOTES,
    WORK,
    WRITTEN_BY,
)

NEW_ONES = _("A name that is not in the catalogue yet is added.")
REACHED = Group(_("How to be reached"), ("email", "telephone", "website", "address"))
EMAIL, TELEPHONE = Said(_("E-mail")), Said(_("Telephone"))
WEBSITE, ADDRESS = Said(_("Website")), Said(_("Address"))
SINCE, UNTIL = Said(_("Since")), Said(_("Until"))
LINK = Said(_("Address on the web"))

PEOPLE = Kind(
    slug="people",
    model=Person,
    one=_("Person"),
    many=_("People"),
    add=_("Add a person"),
    says=_("Players, singers, conductors, authors: whoever the catalogue names."),
    main=(Group(_("The name"), ("name", "sort_name", "plays")), REACHED),
    more=(Group(_("Numbers"), ("ipi", "isni")), KEPT),
    fields={
        "name": Said(_("Name"), _("As it is usually billed.")),
        "sort_name": Said(_("As it is sorted"), _("Such as: Tarnow, Ilse.")),
        "plays": Said(_("Plays or does"), _("Such as: viola, or stage director.")),
        "email": EMAIL,
        "telephone": TELEPHONE,
        "website": WEBSITE,
        "address": ADDRESS,
        "ipi": Said(_("IPI name number")),
        "isni": Said(_("ISNI")),
        "notes": NOTES,
    },
    columns=("name", "plays", "email", "telephone"),
    order=("sort_name", "name", "pk"),
)

ORGANISATIONS = Kind(
    slug="organisations",
    model=Organisation,
    one=_("Organisation"),
    many=_("Organisations"),
    add=_("Add an organisation"),
    says=_("Ensembles, presenters, festivals, publishers, funders, broadcasters."),
    main=(Group(_("What it is"), ("name", "kinds", "city", "country")), REACHED),
    more=(Group(_("Numbers"), ("ipi", "isni")), KEPT),
    fields={
        "name": Said(_("Name"), _("As it is usually billed.")),
        "kinds": Said(_("What it is to you")),
        "city": Said(_("City")),
        "country": Said(_("Country"), _("Its name, or two letters such as CH.")),
        "email": EMAIL,
        "telephone": TELEPHONE,
        "website": WEBSITE,
        "address": ADDRESS,
        "ipi": Said(_("IPI name number"), _("Of a publisher, for registrations.")),
        "isni": Said(_("ISNI")),
        "notes": NOTES,
    },
    columns=("name", "kinds", "city", "country", "email", "telephone"),
    order=("name", "pk"),
)

CONTACTS = Kind(
    slug="contacts",
    model=ContactPerson,
    one=_("Contact"),
    many=_("Contacts"),
    add=_("Add a contact"),
    says=_("Whom to ring up at an organisation: production, library, technicians, press."),
    main=(
        Group(_("Who"), ("name", "organisation", "role", "position")),
        Group(_("How to be reached"), ("email", "telephone", "hours")),
    ),
    more=(Group(_("When"), ("since", "until"), in_a_row=True), Group(_("In the catalogue"), ("person",)), KEPT),
    fields={
        "name": Said(_("Name")),
        "organisation": Said(_("Where"), NEW_ONES),
        "role": Said(_("Asked about")),
        "position": Said(_("Their title"), _("Such as: head of the library.")),
        "email": EMAIL,
        "telephone": TELEPHONE,
        "hours": Said(_("When they answer")),
        "since": SINCE,
        "until": UNTIL,
        "person": Said(_("Person of the catalogue"), NEW_ONES),
        "notes": NOTES,
    },
    columns=("name", "organisation", "role", "email", "telephone"),
    order=("organisation__name", "name", "pk"),
    along=("organisation",),
    again=("organisation",),
)

REFEREES = Kind(
    slug="referees",
    model=Referee,
    one=_("Referee"),
    many=_("Referees"),
    add=_("Add a referee"),
    says=_("Who writes references for you: asked again with one click for each application."),
    main=(Group(_("Who"), ("name", "position", "institution", "knows_as")), REACHED),
    more=(KEPT,),
    fields={
        "name": Said(_("Name")),
        "position": Said(_("Their title"), _("Such as: professor of composition.")),
        "institution": Said(_("Where they are")),
        "knows_as": Said(_("Knows you as"), _("Portals ask for it; such as: teacher for four years.")),
        "email": EMAIL,
        "telephone": TELEPHONE,
        "website": WEBSITE,
        "address": ADDRESS,
        "notes": NOTES,
    },
    columns=("name", "institution", "email", "telephone"),
    order=("name", "pk"),
)

BILLED_NAMES = Kind(
    slug="names",
    model=BilledName,
    one=_("Name as billed"),
    many=_("Names as billed"),
    add=_("Add a name"),
    says=_("Other names under which people and organisations are or were billed, by language and time."),
    main=(
        Group(_("The name"), ("name", "person", "organisation")),
        Group(_("When and where"), ("language", "since", "until")),
    ),
    more=(KEPT,),
    fields={
        "name": Said(_("Name as billed")),
        "person": Said(_("Person"), NEW_ONES),
        "organisation": Said(_("Or organisation"), NEW_ONES),
        "language": LANGUAGE,
        "since": SINCE,
        "until": UNTIL,
        "notes": NOTES,
    },
    columns=("name", "person", "organisation", "since", "until"),
    order=("name", "pk"),
    along=("person", "organisation"),
    tells={"since": _("since {}"), "until": _("until {}")},
)

BIOGRAPHIES = Kind(
    slug="biographies",
    model=Biography,
    one=_("Biography"),
    many=_("Biographies"),
    add=_("Add a biography"),
    says=_("The composer’s life in several lengths and languages, each with the day on which it was last right."),
    main=(Group(_("The text"), ("body", "length", "language")), Group(_("Whose it is"), ("as_of", "author"))),
    more=(Group(_("More"), ("person", "most_words")), KEPT),
    fields={
        "body": Said(_("Text"), _("As it is to be printed; an empty line begins a paragraph.")),
        "length": LENGTH,
        "language": LANGUAGE,
        "as_of": AS_OF,
        "author": WRITTEN_BY,
        "person": Said(_("About somebody else"), _("Leave empty where it is about the composer.")),
        "most_words": MOST_WORDS,
        "words": Said(_("Words")),
        "notes": NOTES,
    },
    columns=("__str__", "length", "language", "words", "as_of"),
    along=("person",),
    looks={"words": "num end"},
)

HALLS = Kind(
    slug="halls",
    model=Venue,
    one=_("Hall"),
    many=_("Halls"),
    add=_("Add a hall"),
    says=_("Halls, churches, galleries, squares: where concerts take place, and what the house has."),
    main=(
        Group(_("The hall"), ("name", "city", "region", "country", "zone")),
        Group(_("For technical riders"), ("equipment",)),
    ),
    more=(Group(_("On the map"), ("latitude", "longitude"), in_a_row=True), KEPT),
    fields={
        "name": Said(_("Name")),
        "city": Said(_("City")),
        "region": Said(_("Region"), _("Part of a country that has firsts of its own, such as Scotland or Bavaria.")),
        "country": Said(_("Country"), _("Its name, or two letters such as CH.")),
        "zone": Said(_("Clocks"), _("By which times there are told, such as Europe/Berlin.")),
        "equipment": Said(_("What the house has"), _("One thing a line: 6 loudspeakers; full range.")),
        "latitude": Said(_("Latitude"), _("Degrees north, such as 53.5413.")),
        "longitude": Said(_("Longitude"), _("Degrees east, such as 9.9841.")),
        "notes": NOTES,
    },
    columns=("name", "city", "region", "country"),
    order=("country", "city", "name", "pk"),
    again=("city", "region", "country", "zone"),
)

AWARDS = Kind(
    slug="awards",
    model=Award,
    one=_("Award"),
    many=_("Awards"),
    add=_("Add an award"),
    says=_("Prizes, fellowships, selections: for a work, or for the composer."),
    main=(
        Group(_("The award"), ("name", "result", "date", "work")),
        Group(_("Who gave it"), ("body", "place")),
    ),
    more=(Group(_("More"), ("body_name", "amount", "address")), KEPT),
    fields={
        "name": Said(_("Name of the award")),
        "result": Said(_("Result"), _("Such as: second prize, or shortlisted.")),
        "date": Said(_("When")),
        "work": Said(_("For the work")),
        "body": Said(_("Given by"), NEW_ONES),
        "body_name": Said(_("Given by, as printed"), _("Where it differs.")),
        "given_by": Said(_("Given by")),
        "place": Said(_("Place")),
        "amount": Said(_("Amount")),
        "address": LINK,
        "notes": NOTES,
    },
    columns=("__str__", "work", "date", "given_by"),
    order=(F("date").desc(nulls_last=True), "pk"),
    along=("body",),
)

REVIEWS = Kind(
    slug="reviews",
    model=Review,
    one=_("Review"),
    many=_("Reviews"),
    add=_("Add a review"),
    says=_("What critics wrote, with the words that may be quoted."),
    main=(
        Group(_("Where it stood"), ("publication", "author", "date")),
        Group(_("What it says"), ("work", "quotation", "language")),
    ),
    more=(
        Group(_("Of what"), ("performance", "recording")),
        Group(_("More"), ("headline", "address", "doi")),
        KEPT,
    ),
    fields={
        "publication": Said(_("Paper or site")),
        "author": Said(_("By")),
        "date": Said(_("When")),
        "headline": Said(_("Headline")),
        "quotation": Said(_("Words to quote"), _("Exactly as printed.")),
        "language": LANGUAGE,
        "work": Said(_("Of the work")),
        "performance": Said(_("Of the performance")),
        "recording": Said(_("Of the recording")),
        "address": LINK,
        "doi": Said(_("DOI")),
        "notes": NOTES,
    },
    columns=("__str__", "work", "date", "headline"),
    order=(F("date").desc(nulls_last=True), "pk"),
)

PICTURES = Kind(
    slug="pictures",
    model=Picture,
    one=_("Picture"),
    many=_("Pictures"),
    add=_("Add a picture"),
    says=_("Portraits and other pictures, with who took them, and in words what they show."),
    main=(
        Group(_("The picture"), ("file", "alternative", "kind")),
        Group(_("Whose it is"), ("credit", "caption", "permission")),
    ),
    more=(Group(_("What it belongs to"), ("work", "performance", "person")), Group(_("When"), ("taken",)), KEPT),
    fields={
        "file": Said(
            _("File"),
            _("PNG, JPEG or WebP, up to 20 MB. It is kept without the place and camera that it may hold."),
        ),
        "alternative": Said(_("What it shows"), _("In a sentence, for those who cannot see it.")),
        "kind": Said(_("What sort of picture")),
        "credit": Said(_("Photographer"), _("As it is to be printed.")),
        "caption": Said(_("Caption")),
        "permission": Said(_("May be shared")),
        "work": WORK,
        "performance": Said(_("Performance")),
        "person": Said(_("Person"), NEW_ONES),
        "taken": Said(_("Taken")),
        "notes": NOTES,
    },
    columns=("__str__", "kind", "credit", "permission"),
)
