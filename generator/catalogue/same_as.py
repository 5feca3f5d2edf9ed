"""`same_as`: a record takes all keys of another; its own keys win, and maps merge one level deep. What a port
writes about an instance of its circuit without naming a template is about that of the port it takes."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from .nodes import Map, Node, Place, Text, Unusable
from .problems import Problems, short

_OWN = ("met",)  # how common a record is says nothing of those made after it
# one statement: whoever grades anew does not inherit the old source
_EVIDENCE = ("evidence", "cite", "checked", "note")


def resolve(
    records: Mapping[str, Map], problems: Problems, check: Callable[[str, Place], bool]
) -> dict[str, Map]:
    """All records, filled; those in or behind a cycle, or based on a broken or missing record, are left out.
    `check(id, place)` reports an id that does not exist."""
    done: dict[str, Map] = {}

    def fill(id: str, path: tuple[str, ...]) -> Map:
        if id in done:
            return done[id]
        if id not in records:
            raise Unusable(id)
        base = records[id].entries.get("same_as")
        if not isinstance(base, Text) or not base.text:
            return done.setdefault(id, records[id])
        if base.text in (*path, id):
            _report_cycle(records, (*path, id), base.text, problems)
            raise Unusable(id)
        if not check(base.text, base.place):
            raise Unusable(id)
        return done.setdefault(id, merge(fill(base.text, (*path, id)), records[id]))

    for id in records:
        try:
            fill(id, ())
        except Unusable:
            pass
    return done


def _report_cycle(records: Mapping[str, Map], path: tuple[str, ...], start: str, problems: Problems) -> None:
    """One fault per cycle, at its first member by name, whichever record led into it."""
    cycle = path[path.index(start) :]
    turn = cycle.index(min(cycle))
    cycle = cycle[turn:] + cycle[:turn]
    words = " -> ".join(map(short, (*cycle, cycle[0])))
    problems.add(
        records[cycle[0]].entries["same_as"].place, "same-as-cycle", f"`same_as` runs in a circle: {words}."
    )


def merge(base: Map, own: Map) -> Map:
    """`own` over `base`. The result stands where `base` stands: a key missing in both is missing there."""
    left_out = (*_OWN, *(_EVIDENCE if "evidence" in own else ()))
    entries = {key: value for key, value in base.entries.items() if key not in left_out and key != "same_as"}
    keys = {key: base.keys[key] for key in entries}
    for key, value in own.entries.items():
        under = entries.get(key)
        if isinstance(value, Map) and isinstance(under, Map):
            value = _joined(under, value)
        entries[key], keys[key] = value, own.keys[key]
    return Map(entries, keys, base.place)


def _joined(under: Map, own: Map) -> Map:
    entries = under.entries | own.entries
    for key, value in own.entries.items():
        before = under.entries.get(key)
        if _names_template(before) and isinstance(value, Map) and not _names_template(value):
            entries[key] = Map(before.entries | value.entries, before.keys | value.keys, before.place)
    return Map(entries, under.keys | own.keys, under.place)


def _names_template(node: Node | None) -> bool:
    return isinstance(node, Map) and ("use" in node or "same_as" in node)
