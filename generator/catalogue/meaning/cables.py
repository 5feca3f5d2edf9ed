"""Cables: what a core may carry is not known by knowing its resistance."""

from __future__ import annotations

from ..context import Context
from ..nodes import Map, Text


def check_current(id: str, tree: Map, context: Context) -> None:
    current, evidence = tree.get("current"), tree["evidence"]
    if isinstance(current, Text) and evidence.text in ("standard", "published"):
        message = (
            f"the current of {current.text} takes the record's '{evidence.text}', which is about its "
            "resistance; give it evidence of its own."
        )
        context.problems.add(current.place, "borrowed-grade", message, evidence.place)


CHECKS = (check_current,)
