"""``screen CALL``: the works that answer a call, the works that do not, and why."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.management.base import CommandParser

from catalogue.gathering import gather_for_calls
from catalogue.management.base import CatalogueCommand, UnusableInput, add_composer_option, chosen_composer
from catalogue.models import Call, Composer
from catalogue.rules.calls.plain_values import call_values, judged_values
from catalogue.rules.calls.reading import CallError, read_call
from catalogue.rules.calls.screening import Screened, Screening, screen
from catalogue.rules.calls.terms import Proposal
from catalogue.rules.calls.verdicts import Verdict

HEADS = {Verdict.YES: "Answer the call", Verdict.CANNOT_TELL: "Cannot be told", Verdict.NO: "Do not answer it"}
LARGEST_FILE = 1_000_000
UTF_16 = (b"\xff\xfe", b"\xfe\xff")


class Command(CatalogueCommand):
    help = "Say which works answer a call, which do not, and why; the call is a stored one or a file with its text."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("call", metavar="CALL", help="the number of a stored call, or a file with the call's text")
        add_composer_option(parser)
        parser.add_argument("--json", action="store_true", help="print the screening as JSON")

    def handle(self, *arguments: Any, **options: Any) -> None:
        composer = chosen_composer(options["composer"])
        proposal = call_named(options["call"], composer)
        found = screen(proposal.call, gather_for_calls(composer))
        if options["json"]:
            self.print_json(as_json(found, proposal))
            return
        self.stdout.write("\n".join([*told(found), *left_open(proposal)]))


def call_named(named: str, composer: Composer) -> Proposal:
    """Return the stored call of that number, else the call of a file."""
    if named.isdecimal() and len(named) < 10 and not Path(named).exists():
        stored = Call.objects.filter(composer=composer, pk=int(named)).first()
        if stored is None:
            raise UnusableInput(f"There is no call {named} in this catalogue.")
        return Proposal(stored.asks)
    try:
        data = Path(named).read_bytes()
    except (OSError, ValueError) as fault:
        raise UnusableInput(f"There is no call “{named}”; give its number or a file with its text.") from fault
    if len(data) > LARGEST_FILE:
        raise UnusableInput(f"“{named}” is too large for the text of a call.")
    if b"\0" in data and data[:2] not in UTF_16:
        raise UnusableInput(f"“{named}” is no text.")
    try:
        return read_call(decoded(data))
    except CallError as fault:
        raise UnusableInput(fault.reason) from fault


def decoded(data: bytes) -> str:
    """Return a text file's text: UTF-8, UTF-16 with its mark, else Windows Latin."""
    if data[:2] in UTF_16:
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def as_json(found: Screening, proposal: Proposal) -> dict[str, Any]:
    return {
        "call": with_its_day(call_values(found.call)),
        "unread": list(proposal.unread),
        "composer": [judged_values(one) for one in found.composer],
        "works": [
            {
                "work": one.work.title.title,
                "verdict": str(one.verdict),
                "near_miss": one.is_near_miss,
                "conditions": [judged_values(judged) for judged in one.conditions],
            }
            for one in found.works
        ],
    }


def with_its_day(call: dict[str, Any]) -> dict[str, Any]:
    """Return the call with its closing day as its deadline where it names no hour."""
    return call | {"deadline": call["deadline"] or call["deadline_day"]}


def told(found: Screening) -> list[str]:
    lines = [found.call.title or "A call"]
    lines += [f"  You: {one.verdict}: {one.reason}" for one in found.composer]
    for verdict, head in HEADS.items():
        works = found.of(verdict)
        lines += ["", f"{head}: {len(works)}"]
        for one in works:
            lines += [f"  {one.work.title.title}", *why(one)]
    return lines


def left_open(proposal: Proposal) -> list[str]:
    """Return what the call says twice, and the sentences that were not understood."""
    lines = ["", *(f"Take care: {one}" for one in proposal.call.contradictions)]
    if proposal.unread:
        lines += ["", "Nothing was taken from these sentences; read them yourself:"]
        lines += [f"  {one}" for one in proposal.unread]
    return lines if len(lines) > 1 else []


def why(one: Screened) -> list[str]:
    return [
        f"      {judged.condition}: {judged.reason}{' ' + judged.mend if judged.mend else ''}"
        for judged in one.deciding
    ]
