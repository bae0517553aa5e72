"""``check_catalogue``: lists what is not in order in the stored records, and changes nothing."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from django.core.management.base import CommandParser

from catalogue.actions.index import find_stale
from catalogue.gathering.checks import Finding, find_faults, records_of_the_catalogue
from catalogue.management.base import CatalogueCommand


class Command(CatalogueCommand):
    help = (
        "List texts that cannot be read, files that disagree with their checksums, records that have lost what they "
        "belong to, and what “reindex” would mend."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--json", action="store_true", help="print the findings as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        findings = [*find_faults(), *find_stale()]
        checked = {str(model._meta.verbose_name): model._base_manager.count() for model in records_of_the_catalogue()}
        if options["json"]:
            found = [asdict(finding) for finding in findings]
            self.print_json({"clean": not findings, "checked": checked, "findings": found})
            return
        for finding in findings:
            self.stdout.write(as_lines(finding))
        self.stdout.write(f"{sum(checked.values())} records checked, {len(findings) or 'nothing'} found.")


def as_lines(finding: Finding) -> str:
    """Say one finding, with the place in the text marked below it."""
    heading = f"{finding.record} {finding.id or ''} “{finding.title}”, {finding.column}: {finding.reason}"
    if not finding.text:
        return heading
    text = finding.text.replace("\n", " ")
    return f"{heading}\n  {text}\n  {' ' * finding.start}{'^' * max(1, finding.end - finding.start)}"
