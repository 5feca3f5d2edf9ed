"""Converters: something goes in where their input is, and something comes out where their output is. A row
written the wrong way round is never told to be the box one needs."""

from __future__ import annotations

from ..context import Context
from ..nodes import Map, Text


def check_ways(_: str, tree: Map, context: Context) -> None:
    for _, row in tree.items():
        for port in row["enters"]:
            if not _has(port, "listeners", context):
                message = f"'{port.text}' hears nothing, so nothing enters a converter there."
                context.problems.add(port.place, "nothing-enters", message)
        if "only_to" in row:
            continue  # made for what asks for sound instead of hearing it: a host, a telephone line
        for port in row["leaves"]:
            if not _has(port, "sources", context):
                message = f"'{port.text}' sends nothing, so nothing leaves a converter there."
                context.problems.add(port.place, "nothing-leaves", message)


def _has(port: Text, what: str, context: Context) -> bool:
    circuit = context.tree("ports", port)["circuit"]
    return any(what in context.tree("circuits", instance["use"]) for _, instance in circuit.items())


CHECKS = (check_ways,)
