"""Where no lead turns one kind of signal into another: the socket to look for first, and the box to use.

A box is taken only the way it works: what leaves the outlet is heard by its input, and what leaves the box is
heard by the inlet. Told wherever an answer says that no lead can help; no verdict rests on it, and a box is
no lead. The twin is site_src/assets/js/ways/converting.js.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from generator.catalogue import Catalogue, Converter, Feeding, Listener, Port, Source
from generator.catalogue.light import DARK
from generator.engine import Verdict
from generator.engine.kinds import same_kind, something_to_hear
from generator.engine.missing import missing

MET = ("daily", "often", "")  # how often one meets a port, most often first
# which kinds an input of a box takes, and an output of one gives, for their own
TAKEN = {"headphone": ("headphone", "line")}
GIVEN = {"line": ("line", "microphone")}
# what sends these has one plug; another of its class is another device
SINGLE = ("microphone", "instrument")
POWER = "power"  # no signal; its volts matter


@dataclass(frozen=True)
class Converting:
    """What is told: sockets to look for first, on `into` and on `from`, or one that must `feed` the outlet;
    and a box with the sockets of its own that are used, each as the port it is like, and the leads that feed
    the outlet on its way in; None where the catalogue knows none."""

    first: tuple[tuple[str, str], ...]
    box: Converter | None = None
    enters: str = ""
    leaves: str = ""
    sentences: tuple[str, ...] = ()
    through: tuple[str, ...] = ()
    settles: bool = False  # it takes a box although both speak of one kind: to look for a lead would mislead

    def as_data(self) -> dict[str, Any]:
        """As `judge --json` tells it. Of `name`, `does` and `needs` the script tells what
        stands in `says` only, in the same words."""
        return {
            "first": [{"on": side, "port": port} for side, port in self.first],
            "converter": self.box.id if self.box else None,
            "name": self.box.name if self.box else None,
            "does": self.box.does if self.box else None,
            "needs": self.box.power if self.box else None,
            "enters": self.enters or None,
            "leaves": self.leaves or None,
            "through": list(self.through),
            "evidence": self.box.evidence.grade if self.box else None,
            "says": list(self.sentences),
        }


def converting(catalogue: Catalogue, start: str, target: str) -> Converting | None:
    """What to use between two ports that no lead joins; None where a lead may, or where nothing is known.
    Raises KeyError for an unknown id."""
    outlet, inlet = catalogue.ports[start], catalogue.ports[target]
    apart = not (_passes(outlet, inlet) or _passes(inlet, outlet))
    named = any(start in box.only_from for box in catalogue.converters.values())
    fed = next((way for way in catalogue.feeding.values() if start in way.outlets), None)
    box, enters, leaves = _box(catalogue, outlet, inlet, apart, named, fed) or (None, "", "")
    first = tuple(_first(catalogue, outlet, inlet)) if apart and not named else ()
    if fed and not box and _box(catalogue, outlet, inlet, apart, named, None):
        first = (("feed", fed.into[0]),)
    if not (box or first):
        return None
    through = fed.through if fed and box else ()
    settles = bool(box) and something_to_hear(outlet, inlet)
    told = Converting(first, box, enters, leaves, through=through, settles=settles)
    return replace(told, sentences=tuple(_said(catalogue, outlet, inlet, told)))


def sends_light(port: Port) -> bool:
    return any(DARK in source.output for source in port.sources)


def beyond(
    catalogue: Catalogue, start: str, target: str, found: Collection[Verdict]
) -> tuple[str | None, Converting | None]:
    """What is not among the ways that were found: the lead that would do it, where none of them is safe, and
    what to use instead of a lead, where none of them works."""
    ends = {end for one in found for end in (one.verdict, one.offered)}
    instead = None if ends & {"safe", "lossy"} else converting(catalogue, start, target)
    settled = "safe" in ends or (instead and instead.settles)
    return None if settled else missing(catalogue, start, target), instead


def _carries(source: Source, listener: Listener) -> bool:
    """Can a lead take this to there: one kind of signal, and both light or both wire?"""
    return same_kind(source, listener) and (DARK in source.output) == (DARK in listener.between)


def _passes(one: Port, other: Port) -> bool:
    return any(_carries(source, listener) for source in one.sources for listener in other.listeners)


def _gives(port: Port) -> bool:
    """Does it give power, as phantom? What needs none is not sent there, what needs some nowhere else."""
    return any(part.kind == "emf" and part.value.nominal for part in port.network.parts)


def _goes_in(outlet: Port, port: Port) -> bool:
    return bool(outlet.needs) == _gives(port) and any(
        source.kind != POWER
        and listener.kind in TAKEN.get(source.kind, (source.kind,))
        and _carries(source, listener)
        for source in outlet.sources
        for listener in port.listeners
    )


def _comes_out(inlet: Port, box: Port, made_for: bool) -> bool:
    """`made_for`: the box is made for this inlet, which may ask for sound instead of hearing it."""
    return (made_for and not box.sources and _passes(inlet, box)) or any(
        not _gives(inlet)
        and listener.kind in GIVEN.get(source.kind, (source.kind,))
        and _carries(source, listener)
        for source in box.sources
        for listener in inlet.listeners
    )


def _box(
    catalogue: Catalogue, outlet: Port, inlet: Port, apart: bool, named: bool, fed: Feeding | None
) -> tuple[Converter, str, str] | None:
    """The box whose sockets match best, and those sockets. One that is made for certain devices stands in for
    a lead between them even where their signals are of one kind; an outlet that is `named` by one goes into
    no other, and one that is `fed` in a way of its own only into what is named there."""
    found = []
    from_source, to_inlet = (partial(_comes_out, inlet, made_for=it) for it in (False, True))
    for box in catalogue.converters.values():
        made_for = outlet.id in box.only_from or inlet.id in box.only_to
        if (box.only_from or named) and outlet.id not in box.only_from:
            continue
        if box.only_to and inlet.id not in box.only_to:
            continue
        if not (apart or made_for):
            continue
        inputs = tuple(port for port in box.enters if not fed or port in fed.into)
        enters = _match(catalogue, inputs, outlet, lambda port: _goes_in(outlet, port))
        leaves = _match(catalogue, box.leaves, inlet, to_inlet if box.only_to else from_source)
        if enters and leaves:
            matched = _alike(enters, outlet) + _alike(leaves, inlet)
            found.append((matched, (box, enters.id, leaves.id)))
    return max(found, key=lambda one: one[0])[1] if found else None


def _match(
    catalogue: Catalogue, names: tuple[str, ...], end: Port, fits: Callable[[Port], bool]
) -> Port | None:
    """Of some ports those that fit, and of these the first with the plug of the other end, or the first."""
    ports = [port for port in map(catalogue.ports.__getitem__, names) if fits(port)]
    return max(ports, key=lambda port: _alike(port, end), default=None)


def _alike(one: Port, other: Port) -> int:
    """Is it the same plug that goes into both?"""
    return int(one.connector == other.connector)


def _first(catalogue: Catalogue, outlet: Port, inlet: Port) -> Iterator[tuple[str, str]]:
    """Another socket of the same device, for the same kind of signal: on what listens, then on what sends.
    None for what must be given power: which of them gives the right volts is no matter of kinds."""
    for side, end, fits in (
        ("into", inlet, lambda port: _goes_in(outlet, port)),
        ("from", outlet, lambda port: _goes_in(port, inlet)),
    ):
        if outlet.needs or any(source.kind in SINGLE for source in end.sources):
            continue
        others = [port for port in catalogue.ports.values() if port.device == end.device and fits(port)]
        if others:
            yield side, min(others, key=lambda port: (MET.index(port.met), port.id)).id


def _said(catalogue: Catalogue, outlet: Port, inlet: Port, told: Converting) -> Iterator[str]:
    ends, box = {"into": inlet, "from": outlet}, told.box
    for side, name in told.first:
        if side == "feed":
            yield (
                f"First it needs power of its own kind: “{catalogue.ports[name].name}” gives it. Plug it in "
                "there, and take the sound on from that device."
            )
            continue
        does = "takes this kind of signal" if side == "into" else "sends what is wanted"
        yield (
            f"Look first for another socket on the {ends[side].device}: "
            f"“{catalogue.ports[name].name}” {does}."
        )
    if box:
        yield f"What would: {box.name}. {box.does}"
        if told.through:
            leads = "”, then the “".join(catalogue.leads[lead].name for lead in told.through)
            supply = next((supply.name for supply in catalogue.ports[told.enters].supplies), "")
            order = f", with {supply} off, and switch that on after" if supply else ""
            yield f"The {outlet.device} goes in through the “{leads}”{order}."
        yield box.power
        yield from box.look_at
        yield "Each of its sides is a connection of its own: judge both before you plug."
