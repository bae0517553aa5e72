"""The kind of records that are papers which left the house."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from catalogue.models import Sending
from catalogue.web.forms.works import Group
from catalogue.web.records.kinds import Kind, Said
from catalogue.web.records.of_catalogue import NEW_ONES
from catalogue.web.records.of_works import KEPT, NOTES, WORK
from catalogue.web.sent_papers import hold_all

SENDINGS = Kind(
    slug="papers-sent",
    model=Sending,
    one=_("Paper sent"),
    many=_("Papers sent"),
    add=_("Send a paper"),
    says=_("Works lists, entries, returns and other papers that went to somebody, kept byte for byte as they went."),
    main=(
        Group(_("To whom"), ("name", "organisation", "person")),
        Group(_("When, and for what"), ("sent_on", "performance")),
    ),
    more=(KEPT,),
    fields={
        "name": Said(_("Sent to"), _("One of the catalogue is recognised by the name.")),
        "recipient": Said(_("Sent to")),
        "organisation": Said(_("Organisation of the catalogue"), NEW_ONES),
        "person": Said(_("Person of the catalogue"), NEW_ONES),
        "title": Said(_("Paper")),
        "work": WORK,
        "sent_on": Said(_("Sent on"), _("A day, such as 5 June 2026.")),
        "performance": Said(_("For the performance")),
        "since": Said(_("The record now")),
        "notes": NOTES,
    },
    columns=("title", "recipient", "sent_on", "performance", "since"),
    order=("-sent_on", "-pk"),
    along=("person", "organisation", "performance", "performance__venue"),
    begins_at="document-list",
    look_up=hold_all,
)
