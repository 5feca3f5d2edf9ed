"""Direct-current readings: every supply setting, tolerance corner, landing and plugging
state of an assembly."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from generator.catalogue.records import Limit, Need, Port

from .assembly import Assembly
from .constants import MORE, RESIDUE
from .currents import part_amps
from .kinds import CONTACT
from .limits import direct, held_against, part_index, stress
from .meeting import meeting
from .readings import Named, Reading
from .setting import Setting, solve_settings
from .signal import Signals
from .switches import settings, supply_switches
from .words import quantity


def direct_readings(assembly: Assembly, signals: Signals) -> Iterator[Reading]:
    """All readings of every setting; `signals` tells what signal at its loudest adds to a part."""
    settled = len(assembly.settled)
    for setting in solve_settings(assembly, settings(assembly.ports)):
        yield from _stress(assembly, setting, settled, signals)
        yield from _needs(assembly, setting, settled)
        yield from _supplies(assembly, setting, settled)
        yield from _windings(assembly, setting, settled)


def _stress(assembly: Assembly, setting: Setting, settled: int, signals: Signals) -> Iterator[Reading]:
    """What every rated part sees, settled and while plugging: direct current and all signals at their loudest
    together. A rating that is not known counts where another's supply or signal reaches the part, and where
    the connection makes a device's own do more to it."""
    for place, record in assembly.places.items():
        for limit in record.network.limits:
            values, alone, moved = _held(setting, place, limit)
            for state, some, rating in (
                ("settled", slice(settled), limit.settled),
                ("plugging", slice(settled, None), limit.momentary),
            ):
                cases = values[:, some]
                if not cases.size:
                    continue
                most, (signal, loud) = float(cases.max()), signals.peak(place, limit, state, setting.number)
                own = place in setting.places and most > MORE * alone + RESIDUE
                if rating is None and not (signal > RESIDUE or setting.places - {place} or own):
                    continue
                at = loud if signal > most else setting.at(cases, "", some.start or 0, moved[:, some])
                unit = {"watts": "W", "amps": "A"}.get(limit.quantity, "V")
                terms = [
                    ("direct current", most, unit),
                    (f"all signals at their loudest{'' if unit == 'W' else ', peak'}", signal, unit),
                ]
                yield stress(
                    place,
                    record,
                    limit,
                    rating,
                    most + signal,
                    state,
                    setting.number,
                    at,
                    terms if signal > RESIDUE else (),
                )


def _held(setting: Setting, place: str, limit: Limit) -> tuple[np.ndarray, float, np.ndarray]:
    """The size at a limit, (drives, states); the most with nothing plugged in; and which sizes are those of
    charge that is shared, being larger."""
    held = lambda solutions: [held_against(limit, direct(solution, place, limit)) for solution in solutions]
    plain, alone = held((setting.solution, setting.apart))
    # no current flows through what hangs
    if setting.shared is None or limit.quantity not in ("volts", "reverse"):
        return plain, float(alone.max()), np.zeros(plain.shape, dtype=bool)
    hung, hung_alone = held(setting.shared)
    return np.maximum(plain, hung), float(max(alone.max(), hung_alone.max())), hung > plain


def _needs(assembly: Assembly, setting: Setting, settled: int) -> Iterator[Reading]:
    """The volts left at whatever has to be powered: the least over corners, landings and earths.

    A need belongs to the channel it shares its circuit with: a microphone nobody listens to may stay without.
    `way` tells needs of the direction that was asked about from those of the way back; `all` whether nothing
    at this place is powered; `ever` whether it is enough at the best corner, however the plug has landed.
    """
    for side, other in (("from", "into"), ("into", "from")):
        for place in assembly.group(side):
            port = assembly.places[place]
            found = {}
            for need in port.needs:
                sends = any(_circuit_of(source.id) == _circuit_of(need.id) for source in port.sources)
                if assembly.places[other].listeners or not sends:
                    nodes = tuple(f"{place}/{node}" for node in need.between)
                    volts = setting.solution.volts(*nodes)[:, :settled]
                    volts = np.where(np.abs(volts) > RESIDUE, volts, 0.0)
                    way = way_of(assembly, side if sends else other)
                    ever = bool((volts.max(axis=0) >= need.least).all())
                    found[need] = float(volts.min()), way, ever, setting.at(-volts, nodes)
            none = all(volts < need.least for need, (volts, *_) in found.items())
            for need, (volts, way, ever, at) in found.items():
                if need.full and volts >= need.least:
                    yield Reading(
                        "starved-volts",
                        f"{place}/{need.id}",
                        need.where,
                        volts,
                        "V",
                        "settled",
                        setting.number,
                        need.full,
                        need.evidence,
                        {"device": Named(place), "part": need.where},
                        {"way": way},
                        at,
                    )
                yield Reading(
                    "supplied-volts",
                    f"{place}/{need.id}",
                    need.where,
                    volts,
                    "V",
                    "settled",
                    setting.number,
                    need.least,
                    need.evidence,
                    {"device": Named(place), "part": need.where, "window": _window(port, need)},
                    {"way": way, "all": "yes" if none else "no", "ever": "yes" if ever else "no"},
                    at,
                )


def _window(port: Port, need: Need) -> str:
    """`needs 24 V or more`, or `works from 10.5 V to 17 V` where it is known what may lie there at most."""
    most = next(
        (
            limit.settled
            for limit in port.network.limits
            if limit.quantity == "volts" and limit.between == need.between
        ),
        None,
    )
    return (
        f"needs {quantity(need.least, 'V')} or more"
        if most is None
        else f"works from {quantity(need.least, 'V')} to {quantity(most, 'V')}"
    )


def _circuit_of(id: str) -> str:
    return id.split(".")[0]


def way_of(assembly: Assembly, side: str) -> str:
    """`forth` for what From sends, `back` for what comes back to it; a connection with nothing to send is
    asked about what comes back."""
    asked = "from" if assembly.places["from"].sources and assembly.places["into"].listeners else "into"
    return "forth" if side == asked else "back"


def _supplies(assembly: Assembly, setting: Setting, settled: int) -> Iterator[Reading]:
    """Current pushed back into a supply, and the surge a supply gives while plugging beyond what it gives
    settled. A supply that is off has an inside too: what is pushed into its rail counts alike."""
    circuit = assembly.circuit
    live = {i for _, i in setting.live}
    fed = [
        (part.id.split("/")[0], i)
        for i, part in enumerate(circuit.parts)
        if part.kind == "emf" and part.value.nominal and (i in live or part.supply)
    ]
    for place, i in fed:
        part, port = circuit.parts[i], assembly.places[place]
        amps = part_amps(setting.solution, i) * np.sign(part.value.nominal)
        name = (
            next((s.name for s in port.supplies if s.id == part.supply), "supply")
            if isinstance(port, Port)
            else "supply"
        )
        words = {"device": Named(place), "part": name}
        yield Reading(
            "supply-fed-amps",
            part.id,
            name,
            max(0.0, float(amps[:, :settled].max())),
            "A",
            "settled",
            setting.number,
            words=words,
            flags={"live": "yes" if i in live else "no"},
            at=setting.at(amps[:, :settled], part.id),
        )
        if i in live and amps.shape[1] > settled:
            moving, home = -amps[:, settled:], max(0.0, float((-amps[:, :settled]).max()))
            at = setting.at(moving, part.id, settled)
            terms = (("most while plugging", float(moving.max()), "A"), ("most once home", home, "A"))
            yield Reading(
                "surge-amps",
                part.id,
                name,
                max(0.0, float(moving.max()) - home),
                "A",
                "plugging",
                setting.number,
                words={**words, "meets": meeting(assembly, at.state - settled)},
                at=at,
                terms=terms,
            )


def _windings(assembly: Assembly, setting: Setting, settled: int) -> Iterator[Reading]:
    """Direct current through coils and ribbons, and into the stages that drive an output."""
    styles = {
        switch.style
        for switch in supply_switches(assembly.ports)
        if any(
            place in switch.places and assembly.circuit.parts[i].supply == switch.supply
            for place, i in setting.live
        )
    }
    feed = "pair" if "pair" in styles else "single"
    for place, record in assembly.places.items():
        driving = {
            name
            for source in getattr(record, "sources", ())
            for name in source.drive
            if source.kind != CONTACT
        }
        if not setting.places - {place}:
            continue
        for part in record.network.parts:
            index = part_index(assembly.circuit, place, part.id)
            if index is None or not (part.coil or (part.id in driving and part.kind == "emf")):
                continue
            amps = np.abs(part_amps(setting.solution, index)[:, :settled])
            quantity, name = ("coil-amps", part.coil) if part.coil else ("output-fed-amps", "output stage")
            if part.coil or not any(p.coil for p in record.network.parts):
                yield Reading(
                    quantity,
                    f"{place}/{part.id}",
                    name,
                    float(amps.max()),
                    "A",
                    "settled",
                    setting.number,
                    words={"device": Named(place), "part": name},
                    flags={"feed": feed},
                    at=setting.at(amps, f"{place}/{part.id}"),
                )
