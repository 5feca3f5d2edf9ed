"""Numbers held against what parts stand: direct current and signal alike, from one solved stack."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from generator.catalogue.records import Lead, Limit, Port

from .circuit import Circuit
from .readings import At, Named, Reading, Term, limit_name
from .solve import Solution, part_amps, part_signal_amps

UNITS = {"volts": "V", "reverse": "V", "amps": "A", "watts": "W"}


def part_index(circuit: Circuit, place: str, part: str) -> int | None:
    """A part's number in the circuit; None when wire shorts it out."""
    return circuit.index.get(f"{place}/{part}")


def decides(place: str, limit: Limit) -> str | tuple[str, str]:
    """The part, or the two nodes, where a limit is read."""
    return f"{place}/{limit.part}" if limit.part else tuple(f"{place}/{node}" for node in limit.between)


def kind_of(record: Port | Lead, limit: Limit) -> str:
    """What sort of part an unknown rating is of, as far as it matters: a supply input turned round, a
    capacitor for volts, a winding for amps, else any part."""
    if limit.reversal:
        return "reversal"
    part = next((part for part in record.network.parts if part.id == limit.part), None)
    if limit.quantity == "volts" and part and part.kind == "capacitor":
        return "capacitor"
    return "winding" if limit.quantity == "amps" and part and part.coil else "part"


def direct(solution: Solution, place: str, limit: Limit) -> np.ndarray:
    """The direct volts, amps or watts a limit is about, (drives, states)."""
    if limit.between:
        return solution.volts(*(f"{place}/{node}" for node in limit.between))
    index = part_index(solution.circuit, place, limit.part)
    if index is None:
        return np.zeros(solution.unknowns.shape[:-1])
    if limit.quantity in ("volts", "reverse"):
        return solution.part_volts(index)
    amps = part_amps(solution, index)
    return amps if limit.quantity == "amps" else amps * solution.part_volts(index)


def held_against(limit: Limit, values: np.ndarray) -> np.ndarray:
    """The size that counts against a limit. A capacitor's reverse rating is about direct volts the wrong way
    round; every other rating is about size. Where that is not known, neither is which way round it sits."""
    return (
        np.maximum(-values, 0.0)
        if limit.quantity == "reverse" and limit.settled is not None
        else np.abs(values)
    )


def each_signal(
    circuit: Circuit, place: str, limit: Limit, data: np.ndarray, hertz: Sequence[float], values: np.ndarray
) -> np.ndarray | None:
    """What one volt (rms) of every source puts on a limit: V or A peak, (corners, frequencies, states,
    sources); for watts the volts and amps, stacked first. None where a limit is about direct current alone:
    windings are rated for what pulls one way, signal moves them to and fro."""
    index = part_index(circuit, place, limit.part) if limit.part else None
    direct_only = (
        limit.quantity == "reverse"
        or index is not None
        and limit.quantity == "amps"
        and circuit.parts[index].coil
    )
    if direct_only or limit.part and index is None:
        return None
    a, b = circuit.ends[index] if limit.part else (circuit.nets[f"{place}/{node}"] for node in limit.between)
    volts = np.abs(data[..., a] - data[..., b])
    if limit.quantity == "volts":
        return volts * np.sqrt(2)
    amps = np.abs(part_signal_amps(circuit, values, hertz, data, index))
    return amps * np.sqrt(2) if limit.quantity == "amps" else np.stack([volts, amps])


def all_signals(limit: Limit, each: np.ndarray, level: np.ndarray) -> np.ndarray:
    """All sources at `level` (V rms, one each) together, V or A peak or W: (corners, frequencies, states)."""
    if limit.quantity == "watts":
        volts, amps = each @ level
        return volts * amps
    return each @ level


def stress(
    place: str,
    record: Port | Lead,
    limit: Limit,
    rating: float | None,
    value: float,
    state: str,
    setting: int,
    at: At,
    terms: Sequence[Term] = (),
    words: Mapping = {},
) -> Reading:
    """The reading of what a limit sees, against a rating; `unrated-...` where that is not known."""
    name = limit_name(record, limit)
    known = "part" if rating is not None else "unrated"
    flags = {"kind": kind_of(record, limit)} if rating is None else {}
    return Reading(
        f"{known}-{limit.quantity}",
        f"{place}/{limit.id}",
        name,
        value,
        UNITS[limit.quantity],
        state,
        setting,
        rating,
        limit.evidence,
        {"device": Named(place), "part": name, **words},
        flags,
        at=replace(at, decides=decides(place, limit)),
        terms=tuple(terms),
    )
