"""Faults and readings in words, for terminals and for pages."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from math import inf

from .dictionary import Window
from .faulty import Fault
from .likely import typical
from .paths import conductors
from .readings import NONE, metered
from .specimen import SHELL, Specimen, contact_of, end_of
from .tables import table

SHORT = 0.5  # ohm; what a meter that is off by 0.3 ohm still shows as a wire
PARTS = {"resistor": "resistor", "capacitor": "capacitor", "clamp": "regulator", "inductor": "winding"}


def place(specimen: Specimen, terminal: str) -> str:
    """A terminal in words: `2 of the XLR male to the input (b)`."""
    end = specimen.lead.ends[end_of(terminal)]
    contact = "the metal shell" if contact_of(terminal) == SHELL else contact_of(terminal)
    return f"{contact} of the {end.label} ({end.id})"


def said(specimen: Specimen, fault: Fault) -> str:
    """A fault as a sentence without its stop."""
    return table("faults")[fault.kind]["says"].format(at=_at(specimen, fault))


def _at(specimen: Specimen, fault: Fault) -> str:
    if not fault.at:
        return ""
    if fault.at[0] not in specimen.terminals:
        known = {part.id: part for part in specimen.parts}.get(fault.at[0])
        return f"the {PARTS[known.kind]} {known.id}" if known else fault.at[0]
    if len(fault.at) == 1:
        return place(specimen, fault.at[0])
    one, other = (contact_of(terminal).replace(SHELL, "the metal shell") for terminal in fault.at[:2])
    label = specimen.lead.ends[end_of(fault.at[0])].label
    return (
        f"{one} and {other}"
        if len(fault.at) > 2
        else f"{one} and {other} of the {label} ({end_of(fault.at[0])})"
    )


def shows(window: Window) -> str:
    """A class of readings as a person would see it."""
    if window.moves:
        return "comes and goes when you flex the lead"
    if window.low == inf:
        return NONE
    if window.high == inf:
        return "anything: it depends on which probe is where"
    if window.high < SHORT:
        return f"below {metered(SHORT + 0.5)}: a wire"
    middle = float(typical(window))
    return f"about {metered(float(f'{middle:.2g}') if middle >= 10 else middle)}"


def grouped(
    specimen: Specimen, faults: Iterable[Fault], nets: Mapping[str, int] | None = None
) -> list[tuple[str, list[Fault]]]:
    """Faults in few words; the same at either end of a conductor is one: `a.2 or b.2 open`. `nets` are the
    conductors, if at hand."""
    nets = conductors(specimen) if nets is None else nets
    found: dict[tuple, list[Fault]] = {}
    for fault in faults:
        found.setdefault((fault.kind, frozenset(nets.get(at, at) for at in fault.at)), []).append(fault)
    return [
        (table("faults")[alike[0].kind]["brief"].format(at=" or ".join(map(_terminals, alike))), alike)
        for alike in found.values()
    ]


def brief(specimen: Specimen, faults: Iterable[Fault], nets: Mapping[str, int] | None = None) -> list[str]:
    """The words alone."""
    return [words for words, _ in grouped(specimen, faults, nets)]


def _terminals(fault: Fault) -> str:
    if fault.kind == "crossed-both":
        return " and ".join(contact_of(terminal) for terminal in fault.at[:2])
    return " and ".join(fault.at)


def listed(items: Iterable[str], most: int = 6) -> str:
    """At most so many, and how many more."""
    found = list(items)
    return "; ".join(found[:most]) + (f"; and {len(found) - most} more" if len(found) > most else "")
