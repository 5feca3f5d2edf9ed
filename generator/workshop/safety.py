"""Which cautions hold for a lead, and what this workshop does not touch."""

from __future__ import annotations

import re

from generator.catalogue.records import Lead

from .tables import table


class Misuse(ValueError):
    """Something was asked for that cannot be answered; the message says what would be right."""


def refuse_mains(name: str) -> None:
    """Raise Misuse if a name speaks of a mains lead."""
    rows = table("cautions")["mains"]
    if set(re.split(r"[^a-z0-9]+", name.lower())) & set(rows["words"]) and not name.startswith(
        "mains-adapter"
    ):
        raise Misuse(f"'{name}': {' '.join(rows['says'].split())}")


def cautions(lead: Lead | None, *doing: str) -> list[str]:
    """The cautions whose condition holds: for what is done (measuring, soldering) and for what the lead has
    inside."""
    inside = [part for part in lead.network.parts if part.id in lead.parts] if lead else []
    holds = {
        *doing,
        *(part.kind for part in inside),
        *("winding" for part in inside if part.coil),
        *("supply" for part in inside if part.kind == "emf"),
    }
    return [" ".join(row["says"].split()) for row in table("cautions").values() if row["when"] in holds]
