"""What every command of the catalogue shares: exit codes, a prepared database, the composer that is meant.

Exit 0 is done, 2 is input that cannot be used (the reason on standard error), 1 is a failure of our own.
"""

from __future__ import annotations

import json
import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db import DatabaseError
from django.utils import timezone

from catalogue.exchange.backups.archive import BackupError
from catalogue.exchange.backups.upgrading import upgrade
from catalogue.exchange.storing_faults import SENTENCES, why_not_opened, why_not_stored
from catalogue.models import Composer


class UnusableInput(CommandError):
    """What was given cannot be used; the message is one sentence for the person who gave it."""

    def __init__(self, message: str) -> None:
        super().__init__(message, returncode=2)


def prepare_database() -> None:
    """Make or bring up to date the tables, with a backup of what there was; says nothing where they are.

    Raises CommandError where they could not be, and are as they were.
    """
    try:
        upgrade(now=timezone.now())
    except BackupError as fault:
        raise CommandError(fault.reason, returncode=1) from fault


class ReadingCommand(BaseCommand):
    """A command that reads what it is given and needs no catalogue."""

    requires_system_checks: list[str] = []

    def execute(self, *arguments: Any, **options: Any) -> str | None:
        try:
            self.prepare()
            return super().execute(*arguments, **options)
        except UnusableInput as fault:
            if not getattr(self, "_called_from_command_line", False):
                raise
            self.stderr.write(str(fault))
            sys.exit(fault.returncode)
        except (DatabaseError, OSError) as fault:
            why = why_not_stored(fault)
            sentence = SENTENCES[why] if why else why_not_opened(fault)
            if not sentence:
                raise
            raise CommandError(sentence, returncode=1) from fault

    def prepare(self) -> None:
        """Do what must be done before the command runs."""

    def print_json(self, value: object) -> None:
        self.stdout.write(json.dumps(value, ensure_ascii=False, indent=2))


class CatalogueCommand(ReadingCommand):
    """A command that reads or writes the catalogue, whose tables are made first where there are none."""

    def prepare(self) -> None:
        prepare_database()


def add_composer_option(parser: CommandParser) -> None:
    parser.add_argument("--composer", metavar="SLUG", help="which composer, where the catalogue holds several")


def chosen_composer(slug: str | None) -> Composer:
    """Return the composer with this slug, or the only one there is."""
    composers = list(Composer.objects.order_by("slug"))
    named = {composer.slug: composer for composer in composers}
    if slug is not None and slug in named:
        return named[slug]
    if slug is None and len(composers) == 1:
        return composers[0]
    if not composers:
        raise UnusableInput("There is no composer in this catalogue yet; import a works list or run “start”.")
    known = ", ".join(named)
    if slug is None:
        raise UnusableInput(f"Say which composer with --composer: {known}.")
    raise UnusableInput(f"There is no composer “{slug}”; there are: {known}.")
