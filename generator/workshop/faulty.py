"""Every plausible single fault of a lead, and the lead with one of them put in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from generator.catalogue.records import Part, Quantity

from .paths import HIGH, resistances
from .specimen import SHELL, Specimen, contact_of, joint_of
from .tables import table

GOOD = "good"
POLAR = 1e-6  # F; larger ones are mostly electrolytic and have a right way round
BRIDGE = Quantity(0.05, 0.005, 0.2, "ohm", "a touch")


@dataclass(frozen=True)
class Fault:
    """`kind` is a row of the table of faults; `at` the terminals, or the part, it is at."""

    kind: str
    at: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """As it is written down: `short:a.2-a.3`."""
        return f"{self.kind}:{'-'.join(self.at)}" if self.at else self.kind

    @property
    def weight(self) -> float:
        """How often it is met, against the others."""
        return float(table("faults")[self.kind]["weight"])

    @property
    def mend(self) -> str:
        """What to do about it."""
        return table("faults")[self.kind]["mend"]


def faults(specimen: Specimen) -> list[Fault]:
    """Nothing wrong, then every single fault of the lead. What would change nothing is left out."""
    return [Fault(GOOD), *_joints(specimen), *_pairs(specimen), *_both_ends(specimen), *_parts(specimen)]


def wired(specimen: Specimen) -> list[str]:
    """The terminals that anything is soldered to."""
    used = {node for part in specimen.parts if not part.id.startswith("joint.") for node in (part.a, part.b)}
    return [terminal for terminal, node in specimen.terminals.items() if node in used]


def _joints(specimen: Specimen) -> Iterator[Fault]:
    for kind in ("open", "loose", "joint-1-ohm", "joint-100-ohm"):
        for terminal in wired(specimen):
            yield Fault(kind, (terminal,))


def _pairs(specimen: Specimen) -> Iterator[Fault]:
    """Contacts of one end that touch or are changed over, unless a wire joins them as it should be."""
    soldered, place = set(wired(specimen)), {terminal: i for i, terminal in enumerate(specimen.terminals)}
    apart = resistances(specimen)[HIGH]
    for terminals in specimen.ends.values():
        for pair in combinations(terminals, 2):
            ohms = apart[place[pair[0]], place[pair[1]]]
            if not soldered & set(pair) or ohms < BRIDGE.high:
                continue
            if contact_of(pair[1]) == SHELL:
                yield Fault("body", pair)
            else:
                yield Fault("short", pair)
                yield Fault("crossed", pair)


def _both_ends(specimen: Specimen) -> Iterator[Fault]:
    """The screen and a core of a cable with two ends, changed over at both."""
    if not specimen.strays or len(specimen.ends) != 2:
        return
    straight = [
        join
        for join in specimen.lead.joins
        if len(join.nodes) == 2 and set(join.nodes) <= set(specimen.terminals)
    ]
    screens = [join for join in straight if join.screen]
    for screen in screens:
        for core in straight:
            one, other = dict(_by_end(screen.nodes)), dict(_by_end(core.nodes))
            if core not in screens and one.keys() == other.keys() == specimen.ends.keys():
                yield Fault("crossed-both", tuple(t for end in specimen.ends for t in (one[end], other[end])))


def _by_end(nodes: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    return ((node.partition(".")[0], node) for node in nodes)


def _parts(specimen: Specimen) -> Iterator[Fault]:
    for part in specimen.parts:
        if part.id in specimen.made:
            for kind in _kinds(part):
                yield Fault(kind, (part.id,))


def _kinds(part: Part) -> tuple[str, ...]:
    if part.kind == "resistor":
        return ("missing", "shorted") if part.coil else ("missing", "shorted", "ten-times", "tenth")
    if part.kind == "capacitor":
        polar = ("reversed",) if part.value.nominal >= POLAR else ()
        return ("missing", "shorted", "ten-times", "tenth", *polar)
    return {"clamp": ("missing", "shorted", "reversed"), "inductor": ("reversed",)}.get(part.kind, ())


def injected(specimen: Specimen, fault: Fault) -> Specimen:
    """The specimen with the fault in it; what comes and goes is taken at its open moment."""
    return replace(specimen, parts=_EDITS[fault.kind](specimen.parts, fault.at, specimen))


Parts = tuple[Part, ...]


def _edited(parts: Parts, id: str, edit: Callable[[Part], Part | None]) -> Parts:
    """The parts with one changed, or left out where the edit gives None."""
    found = (edit(part) if part.id == id else part for part in parts)
    return tuple(part for part in found if part is not None)


def _removed(parts: Parts, id: str) -> Parts:
    return _edited(parts, id, lambda part: None)


def _ohms(text: str) -> Callable[..., Parts]:
    value = float(text)
    stated = Quantity(value, value, value, "ohm", f"{text} ohm")

    def put(parts: Parts, at: tuple[str, ...], specimen: Specimen) -> Parts:
        return _edited(parts, joint_of(at[0]), lambda part: replace(part, kind="resistor", value=stated))

    return put


def _crossed(parts: Parts, at: tuple[str, ...], specimen: Specimen) -> Parts:
    """Each of the two contacts, or of the two pairs of contacts, gets the wire of the other."""
    for one, other in zip(at[::2], at[1::2]):
        for here, there in ((one, other), (other, one)):
            parts = _edited(
                parts, joint_of(here), lambda part, b=specimen.terminals[there]: replace(part, b=b)
            )
    return parts


def _touching(parts: Parts, at: tuple[str, ...], specimen: Specimen) -> Parts:
    return (*parts, Part("fault", "resistor", specimen.terminals[at[0]], specimen.terminals[at[1]], BRIDGE))


def _shorted(parts: Parts, at: tuple[str, ...], specimen: Specimen) -> Parts:
    part = specimen.part(at[0])
    return (*_removed(parts, part.id), Part("fault", "resistor", part.a, part.b, BRIDGE))


def _times(factor: float) -> Callable[..., Parts]:
    def put(parts: Parts, at: tuple[str, ...], specimen: Specimen) -> Parts:
        return _edited(parts, at[0], lambda part: replace(part, value=_scaled(part.value, factor)))

    return put


def _scaled(value: Quantity, factor: float) -> Quantity:
    return Quantity(
        value.nominal * factor,
        value.low * factor,
        value.high * factor,
        value.unit,
        f"{factor:g} x {value.text}",
    )


def _turned(parts: Parts, at: tuple[str, ...], specimen: Specimen) -> Parts:
    return _edited(parts, at[0], lambda part: replace(part, a=part.b, b=part.a))


_EDITS: dict[str, Callable[..., Parts]] = {
    GOOD: lambda parts, at, specimen: parts,
    "open": lambda parts, at, specimen: _removed(parts, joint_of(at[0])),
    "loose": lambda parts, at, specimen: _removed(parts, joint_of(at[0])),
    "joint-1-ohm": _ohms("1"),
    "joint-100-ohm": _ohms("100"),
    "short": _touching,
    "body": _touching,
    "crossed": _crossed,
    "crossed-both": _crossed,
    "missing": lambda parts, at, specimen: _removed(parts, at[0]),
    "shorted": _shorted,
    "ten-times": _times(10),
    "tenth": _times(0.1),
    "reversed": _turned,
}
