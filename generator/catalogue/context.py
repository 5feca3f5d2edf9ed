"""What a check may know about the rest of the catalogue: which ids exist, where they are
defined, what has been read."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field

from .nodes import Map, Node, Place, Unusable
from .problems import Problems, did_you_mean, quoted

SINGULAR = {
    "connectors": "connector",
    "assignments": "assignment",
    "circuits": "circuit",
    "cables": "cable",
    "ports": "port",
    "leads": "lead",
    "sources": "source",
    "questions": "question",
}


@dataclass
class Context:
    """`ids`: kind -> id -> where it is defined, broken files included; `trees`: the same, checked,
    without what is broken. `unreadable`: kinds whose ids could not be read, so that no reference
    to them can be judged."""

    problems: Problems
    ids: Mapping[str, Mapping[str, Place]]
    retired: Mapping[str, tuple[str, ...]]
    unreadable: Collection[str] = ()
    trees: dict[str, dict[str, Map]] = field(default_factory=dict)
    local: tuple[str, ...] = ()  # ids that stand in somebody's own files
    kind: str = ""  # of the records now being checked
    confirmed: int = 0  # how many of the records now being checked say that their unlikely values are right
    _called: dict[str, defaultdict[str, list[tuple[str, Map]]]] = field(default_factory=dict)

    def tree(self, kind: str, node: Node) -> Map:
        """The record `node` refers to; Unusable where it is broken."""
        found = self.trees[kind].get(node.text)
        if found is None:
            raise Unusable(node.text)
        return found

    def called(self, kind: str, name: str) -> list[tuple[str, Map]]:
        """The records of a kind, all of them read, that have this name."""
        if kind not in self._called:
            self._called[kind] = defaultdict(list)
            for id, tree in self.trees[kind].items():
                if tree.entries.get("name"):
                    self._called[kind][tree.text("name")].append((id, tree))
        return self._called[kind][name]

    def check_reference(self, kind: str, id: str, place: Place) -> bool:
        """Does `kind` have `id`? If not, say so."""
        if id in self.ids[kind]:
            return True
        if kind in self.unreadable:
            return False
        if id in self.retired:
            successors = " or ".join(f"'{new}'" for new in self.retired[id])
            self.problems.add(place, "retired-reference", f"{quoted(id)} is retired; use {successors}.")
        else:
            what = SINGULAR[kind]
            guess = "" if self.problems.many() else did_you_mean(id, self.ids[kind])
            message = f"there is no {what} {quoted(id)}.{guess}"
            self.problems.add(place, f"unknown-{what}", message)
        return False
