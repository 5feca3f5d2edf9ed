"""A YAML file as a tree in which all scalars are text and everything knows where it stands.

The shape check replaces a value it has complained about by None; reading it, or a key that is missing, raises
`Unusable`, so that a later check that needs it falls silent instead of complaining a second time.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple, Union


class Unusable(Exception):
    """A value was needed that is missing or broken; its fault is already reported."""


class Place(NamedTuple):
    """1-based line and column in a file, the path as shown to the reader."""

    path: str
    line: int = 1
    column: int = 1


@dataclass(frozen=True)
class Text:
    """A scalar."""

    text: str
    place: Place

    @property
    def sound(self) -> bool:
        return True


@dataclass(frozen=True)
class Many:
    """A list."""

    items: tuple[Node | None, ...]
    place: Place

    @property
    def sound(self) -> bool:
        return all(item is not None and item.sound for item in self.items)

    def __iter__(self) -> Iterator[Node]:
        return (item for item in self.items if item is not None)

    def texts(self) -> tuple[str, ...]:
        return tuple(item.text for item in self)


@dataclass(frozen=True)
class Map:
    """A map; `keys` tells where each key stands."""

    entries: dict[str, Node | None]
    keys: dict[str, Place]
    place: Place

    @property
    def sound(self) -> bool:
        return all(value is not None and value.sound for value in self.entries.values())

    def __contains__(self, key: str) -> bool:
        return key in self.entries

    def __getitem__(self, key: str) -> Node:
        value = self.entries.get(key)
        if value is None:
            raise Unusable(key)
        return value

    def get(self, key: str) -> Node | None:
        """The value, or None where the author left the key out."""
        return self[key] if key in self.entries else None

    def whole(self, key: str) -> Node:
        """The value, if nothing in it is broken."""
        value = self[key]
        if not value.sound:
            raise Unusable(key)
        return value

    def items(self) -> Iterator[tuple[str, Node]]:
        return ((key, value) for key, value in self.entries.items() if value is not None)

    def map(self, key: str) -> Map:
        """The map under `key`, or an empty one."""
        return self[key] if key in self.entries else Map({}, {}, self.place)

    def text(self, key: str, default: str | None = None) -> str | None:
        return self[key].text if key in self.entries else default

    def texts(self, key: str) -> tuple[str, ...]:
        return self[key].texts() if key in self.entries else ()


Node = Union[Text, Many, Map]


def plain(node: Node) -> str | list | dict:
    """The tree as text, lists and dicts."""
    if isinstance(node, Text):
        return node.text
    if isinstance(node, Many):
        return [plain(item) for item in node]
    return {key: plain(value) for key, value in node.items()}
