"""A network as its contacts show it: admittances between them, at a few frequencies, with all that lies
inside worked in. Small enough to be joined by the thousand.

Numbers are good to a fraction of a decibel, not to the last bit: wire has a milliohm, what floats is tied
by a teraohm. Sinks and clamps are left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

import numpy as np

from generator.catalogue.records import Coupling, Part

TIE, WIRE, SERIES = 1e-12, 1e3, 1e-3  # siemens, siemens, ohm


class Reduced(NamedTuple):
    """Between the kept nodes: `admittance` (hertz, kept, kept); what each drive pushes into them, `pushed`
    (hertz, drives, kept) in A; what each meter shows of their volts, `shown` (hertz, meters, kept), and of
    the drives with all of them at 0 V, `own` (hertz, meters, drives)."""

    admittance: np.ndarray
    pushed: np.ndarray
    shown: np.ndarray
    own: np.ndarray


def reduced(
    parts: Iterable[Part],
    couplings: Iterable[Coupling],
    kept: Sequence[str],
    hertz: Sequence[float],
    drives: Sequence[Mapping] = (),
    meters: Sequence[tuple[str, str] | str] = (),
) -> Reduced:
    """`drives` tell the volts of emfs, the amperes of sinks, and what is pushed from one node into another
    outside. A meter shows the volts between two nodes or the amperes in a part."""
    parts = tuple(parts)
    pairs = [meter for meter in meters if not isinstance(meter, str)]
    pairs += [pair for drive in drives for pair in drive if not isinstance(pair, str)]
    names = dict.fromkeys(
        (*kept, *(node for part in parts for node in (part.a, part.b)), *(n for pair in pairs for n in pair))
    )
    nets = {name: number for number, name in enumerate(names)}
    rows = {
        part.id: len(nets) + number
        for number, part in enumerate(part for part in parts if part.kind in ("emf", "inductor"))
    }
    pace, size = 2j * np.pi * np.asarray(hertz, dtype=float), len(nets) + len(rows)
    matrix = np.zeros((len(pace), size, size), dtype=complex)
    right = np.zeros((size, len(drives)))
    inner = np.arange(len(kept), len(nets))
    matrix[:, inner, inner] = TIE
    for part in parts:
        a, b = nets[part.a], nets[part.b]
        if part.id in rows:
            row = rows[part.id]
            for net, sign in ((a, 1), (b, -1)):
                matrix[:, net, row] += sign
                matrix[:, row, net] += sign
            matrix[:, row, row] -= SERIES + (pace * part.value.nominal if part.kind == "inductor" else 0.0)
        elif part.kind in ("resistor", "capacitor", "wire"):
            siemens = WIRE if part.kind == "wire" else part.value.nominal * pace
            siemens = 1 / part.value.nominal if part.kind == "resistor" else siemens
            for one, two, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
                matrix[:, one, two] += sign * siemens
        for column, drive in enumerate(drives):
            if part.id in drive:
                if part.id in rows:
                    right[rows[part.id], column] += drive[part.id]
                else:
                    right[[a, b], column] += (-drive[part.id], drive[part.id])
    values = {part.id: part.value.nominal for part in parts if part.id in rows}
    for one in couplings:
        mutual = one.k * np.sqrt(values[one.first] * values[one.second])
        for row, column in ((one.first, one.second), (one.second, one.first)):
            matrix[:, rows[row], rows[column]] -= pace * mutual
    for column, drive in enumerate(drives):
        for pair, amps in drive.items():
            if not isinstance(pair, str):
                right[[nets[pair[0]], nets[pair[1]]], column] += (-amps, amps)
    ohms = {part.id: (part.a, part.b, part.value.nominal) for part in parts if part.kind == "resistor"}
    reading = np.zeros((len(meters), size))
    for number, meter in enumerate(meters):
        if isinstance(meter, str) and meter in rows:
            reading[number, rows[meter]] = 1
        elif not isinstance(meter, str) or meter in ohms:
            a, b, ohm = (*meter, 1.0) if not isinstance(meter, str) else ohms[meter]
            reading[number, nets[a]] += 1 / ohm
            reading[number, nets[b]] -= 1 / ohm
    n = len(kept)
    given = np.concatenate(
        [matrix[:, n:, :n], np.broadcast_to(right[n:], (len(pace), size - n, len(drives)))], axis=2
    )
    worked = np.linalg.solve(matrix[:, n:, n:], given)
    back = matrix[:, :n, n:] @ worked
    return Reduced(
        matrix[:, :n, :n] - back[..., :n],
        np.swapaxes(right[:n] - back[..., n:], 1, 2),
        reading[:, :n] - reading[:, n:] @ worked[..., :n],
        reading[:, n:] @ worked[..., n:],
    )


def without(admittance: np.ndarray, gone: int) -> np.ndarray:
    """The same without its last so many nodes, (..., nodes, nodes)."""
    n = admittance.shape[-1] - gone
    inner = admittance[..., n:, n:] + TIE * np.eye(gone)
    return admittance[..., :n, :n] - admittance[..., :n, n:] @ np.linalg.solve(inner, admittance[..., n:, :n])
