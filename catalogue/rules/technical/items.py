"""What has to be there for a performance, item by item, to be confirmed.

An item's key is made from what it says: as long as it says the same, an answer that was given to it holds.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from hashlib import sha256


class ItemKind(StrEnum):
    """A thing that a house may have, somebody who works, or a condition such as power, pitch and time."""

    THING = "thing"
    PERSON = "person"
    CONDITION = "condition"


@dataclass(frozen=True, slots=True)
class Item:
    """Something that has to be there, under its head; ``number`` of things, ``such_as`` a model for reference.

    ``provider`` is empty where nobody has been said.
    """

    group: str
    name: str
    number: int = 1
    detail: str = ""
    such_as: str = ""
    provider: str = ""
    kind: ItemKind = ItemKind.THING

    @property
    def key(self) -> str:
        """Sixteen hexadecimal figures that stay the same while the item says the same."""
        said = "\n".join((self.group, self.name, str(self.number), self.detail, self.such_as, self.provider))
        return sha256(said.replace("\N{NO-BREAK SPACE};", ";").encode()).hexdigest()[:16]

    @property
    def title(self) -> str:
        """The name with its number.

        >>> Item("Sound", "loudspeakers", 8).title, Item("Sound", "mixing desk").title
        ('8 loudspeakers', 'Mixing desk')
        """
        return f"{self.number} {self.name}" if self.number > 1 else self.name[:1].upper() + self.name[1:]


def together(items: Iterable[Item]) -> tuple[Item, ...]:
    """The items head by head, in the order in which each head comes first; what is said twice stands once."""
    heads: dict[str, dict[Item, None]] = {}
    for item in items:
        heads.setdefault(item.group, {})[item] = None
    return tuple(item for found in heads.values() for item in found)
