"""Retired ids: one hop to something that lives."""

from __future__ import annotations

from ..context import Context
from ..nodes import Many, Map
from ..problems import did_you_mean

_ADDRESSED = ("connectors", "assignments", "ports", "leads")


def check_retired(_: str, tree: Map, context: Context) -> None:
    live = {id: place for kind in _ADDRESSED for id, place in context.ids[kind].items()}
    seen = {}
    for group in ("moved", "split"):
        entries = tree.map(group)
        for old, new in entries.items():
            place = entries.keys[old]
            if old in live:
                context.problems.add(
                    place, "retired-alive", f"'{old}' is retired here but still in use.", live[old]
                )
            if old in seen:
                context.problems.add(place, "duplicate-key", f"'{old}' is retired twice.", seen[old])
            seen.setdefault(old, place)
            for target in new if isinstance(new, Many) else (new,):
                if target.text in context.retired:
                    message = (
                        f"'{old}' leads to '{target.text}', which is itself retired; name its successor."
                    )
                    context.problems.add(target.place, "retired-chain", message)
                elif target.text not in live:
                    message = (
                        f"'{old}' leads to '{target.text}', which does not "
                        f"exist.{did_you_mean(target.text, live)}"
                    )
                    context.problems.add(target.place, "retired-target", message)


CHECKS = (check_retired,)
