"""``second_step``: switches off the second step of somebody who has lost the telephone and the recovery codes."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User
from django.core.management.base import CommandParser

from catalogue.actions.second_factors import factor_of, switch_off
from catalogue.management.base import CatalogueCommand, UnusableInput


class Command(CatalogueCommand):
    help = (
        "Say whether somebody signs in with a second step, or switch it off. Make sure first that it is they who ask."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("name", help="the name that they sign in with")
        parser.add_argument("--off", action="store_true", help="from now on name and password are enough")

    def handle(self, *arguments: Any, **options: Any) -> None:
        user = User.objects.filter(username=options["name"]).first()
        if user is None:
            raise UnusableInput(f"Nobody signs in as “{options['name']}”.")
        if options["off"]:
            switch_off(user=user)
        state = "on" if factor_of(user) else "off"
        self.stdout.write(f"The second step of “{user.username}” is {state}.")
