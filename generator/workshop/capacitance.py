"""Capacitance of cable: what data sheets print -> what lies between two conductors alone, and back.

Printed are core to core with the screen floating (Ccc) and one core to the other joined with the screen
(Cr). Of the partial capacitances, core to core Cc and each core to the screen Cs, the first is Cc + Cs/2
and the second Cc + Cs. Taken as they are printed, the two would make a screen and a core that changed
places at both ends look like a good lead.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from generator.catalogue.records import Lead, Part, Quantity

from .tables import amount, table


def partial(core_to_core: float, core_to_rest: float) -> tuple[float, float]:
    """Printed figures -> (Cs, Cc), in the unit given. Raises ValueError where no cable can have both."""
    screen, core = 2 * (core_to_rest - core_to_core), 2 * core_to_core - core_to_rest
    if screen < 0 or core < 0:
        raise ValueError(
            f"core to rest {core_to_rest:g} is not between core to core {core_to_core:g} and twice that"
        )
    return screen, core


def read_between(screen: float, core: float) -> tuple[float, float]:
    """What a meter shows on a good pair with the far end open: core to screen (other core floating), core
    to core (screen floating)."""
    return screen + (core * screen / (core + screen) if core + screen else 0.0), core + screen / 2


def parts(lead: Lead) -> tuple[Part, ...]:
    """The parts of a lead, with the capacitances of its cable put right where its printed figures are
    known."""
    if lead.cable not in table("cables"):
        return lead.network.parts
    between = partial(
        *(amount("cables", lead.cable, key).nominal for key in ("core_to_core", "core_to_rest"))
    )
    return tuple(
        _put_right(lead, part, between) if stray(lead, part) else part for part in lead.network.parts
    )


def stray(lead: Lead, part: Part) -> bool:
    """Is the part a capacitance of the cable?"""
    return part.kind == "capacitor" and part.id not in lead.parts


def _put_right(lead: Lead, part: Part, between: tuple[float, float]) -> Part:
    """Half of a pair's capacitance lies at either end, all of it at a hub."""
    screens = {join.id for join in lead.joins if join.screen}
    touched = any(_joins(lead, node) & screens for node in (part.a, part.b))
    share = 1.0 if part.a.endswith(".hub") else 0.5
    value = between[0 if touched else 1] * lead.length * share
    return replace(part, value=Quantity(value, value, value, "F", f"{value:g} F"))


def _joins(lead: Lead, node: str) -> set[str]:
    """The joins a node belongs to: by name for a contact, by the name of the conductor for a hub or a cut
    end."""
    named: Iterable[str] = (
        join.id for join in lead.joins if node in join.nodes or node.startswith(f"cable.{join.id}.")
    )
    return set(named)
