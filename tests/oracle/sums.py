"""Nodal sums written a second time: a circuit boiled down to its supplies, charged capacitors and bends.

One dense system for each switch state and tolerance corner, solved for one volt of every supply, one volt
in every large capacitor and one ampere through every sink and clamp. Every supply setting, every charge
and every region of the bends is then a sum of these columns. Nothing hangs in the air: a teraohm leads
from each net to ground, and a capacitor leaks, so that two in a row share what lies across both as they
would when they fill.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from corners import values
from islands import pairs_of, tied
from wiring import AIR, Wiring

SEEP = 1e-7  # S through a clamp below its value: diodes leak, and what hangs on a clamp alone follows it
EMPTIES = 1e3  # s, time constant of a large capacitor left alone; limits of leakage are ten times worse
HELD = 0.01  # ohm in series with a capacitor that holds its charge
ROUNDS, SIMULTANEOUS = 200, 20


class Unsettled(ArithmeticError):
    """No combination of regions of sinks and clamps fits."""


@dataclass(frozen=True)
class Sums:
    """`columns` (states, unknowns, columns): per volt of a supply, per volt in one of `capacitors` (none
    when they are open), per ampere that one of `bends` draws beyond its first slope. `values` (pieces,)
    are the parts at the corner, `series` (capacitors,) ohm; `at` tells which states of the wiring these
    are."""

    wired: Wiring
    corner: str
    values: np.ndarray
    capacitors: tuple[int, ...]
    series: np.ndarray
    bends: tuple[int, ...]
    columns: np.ndarray
    at: np.ndarray

    def over(self, found: np.ndarray, pieces) -> np.ndarray:
        """The volts of some pieces, a over b: (..., pieces) of unknowns (..., size)."""
        a, b = pairs_of(self.wired.pieces[i] for i in pieces).T
        return found[..., a] - found[..., b]

    def tied(self, gone: np.ndarray, things) -> np.ndarray:
        """(states, things): can direct current flow between their two nets while the supplies in `gone`
        are not there?"""
        away = {i for i, absent in zip(self.wired.supplies, gone) if absent}
        small = set(self.wired.of("capacitor")) - set(self.wired.large)
        return tied(self.wired, small | away, self.at, pairs_of(things))


def boil(wired: Wiring, corner: str, at: np.ndarray, series: np.ndarray | None = None) -> Sums:
    """The sums of a wiring at a corner in the states `at`. Without `series` capacitors are open; with it
    (ohm, one for each large capacitor) they are sources of what they hold behind that resistance."""
    pieces, worth, supplies = wired.pieces, values(wired, corner), wired.supplies
    capacitors = wired.large if series is not None else ()
    bends = wired.of("sink", "clamp")
    siemens = np.zeros(len(pieces))
    for i, piece in enumerate(pieces):
        if piece.part.kind == "resistor":
            siemens[i] = 1 / worth[i]
        elif piece.part.kind == "sink":
            siemens[i] = worth[i] / piece.part.knee
        elif piece.part.kind == "clamp":
            siemens[i] = SEEP
        elif i in wired.large:
            siemens[i] = worth[i] / EMPTIES
    if capacitors:
        siemens[list(capacitors)] = 1 / series
    right = np.zeros((wired.size, len(supplies) + len(capacitors) + len(bends)))
    for k, i in enumerate(supplies):
        right[wired.branch[i], k] = 1
    for k, i in enumerate((*capacitors, *bends), len(supplies)):
        amps = siemens[i] if i in capacitors else -1.0  # given to a, taken from b
        right[pieces[i].a, k] += amps
        right[pieces[i].b, k] -= amps
    matrix = wired.frame + (siemens @ wired.stamps).reshape(wired.size, wired.size)
    columns = np.linalg.solve(matrix + wired.touching[at], right)
    series = np.array([]) if series is None else series
    return Sums(wired, corner, worth, capacitors, series, bends, columns, at)


def settle(sums: Sums, volts: np.ndarray, gone: np.ndarray, held: np.ndarray | None = None) -> np.ndarray:
    """Unknowns (cases, states, size). `volts` (cases, supplies) is what each supply gives, `gone`
    (supplies,) which are not there, `held` (cases, states, capacitors) what each capacitor holds. Raises
    Unsettled."""
    columns, away = sums.columns, np.flatnonzero(gone)
    if away.size:  # whatever the others do, these carry nothing: their volts follow
        rows = [sums.wired.branch[sums.wired.supplies[k]] for k in away]
        own = columns[:, rows][:, :, away] - 1e-3 * AIR * np.eye(away.size)
        columns = columns - columns[:, :, away] @ np.linalg.solve(own, columns[:, rows])
    driven = np.broadcast_to((volts * ~gone)[:, None], (len(volts), len(columns), len(gone)))
    if held is not None:
        driven = np.concatenate([driven, held], axis=-1)
    count = driven.shape[-1]
    found = np.einsum("snk,csk->csn", columns[:, :, :count], driven)
    return _bend(sums, found, columns[:, :, count:]) if sums.bends else found


def _bend(sums: Sums, found: np.ndarray, draws: np.ndarray) -> np.ndarray:
    """Add what each sink and clamp draws beyond its first slope: `draws` (states, size, bends) is per
    ampere. A sink's slope ends at its knee, where it draws its full current; a clamp draws nothing up to
    its value."""
    parts = [sums.wired.pieces[i].part for i in sums.bends]
    full, sinks = sums.values[list(sums.bends)], np.array([part.kind == "sink" for part in parts])
    ohm = np.array(
        [part.knee / value if part.kind == "sink" else part.series for part, value in zip(parts, full)]
    )
    at = np.where(sinks, full * ohm, full)
    slope = np.where(sinks, -1 / ohm, 1 / ohm - SEEP)
    still = np.where(sinks, full, full * (SEEP - 1 / ohm))
    free = sums.over(found, sums.bends)
    gives = np.moveaxis(sums.over(np.moveaxis(draws, 1, -1), sums.bends), 1, -1)  # volts per ampere
    volts, past = free.copy(), np.zeros(free.shape, dtype=bool)
    for turn in range(ROUNDS):
        off = (volts > at) != past
        off &= np.abs(volts - at) > 1e-9 * np.abs(at) + 1e-12  # on the bend itself both regions give the same
        if not off.any():
            return found + np.einsum("snk,csk->csn", draws, past * (slope * volts + still))
        if turn >= SIMULTANEOUS:  # one at a time, the first that is wrong: all at once may go round for ever
            off &= np.cumsum(off, axis=-1) == 1
        past = past ^ off
        case, state = np.nonzero(off.any(axis=-1))
        on, each = past[case, state], gives[state]
        system = np.eye(len(at)) - each * (on * slope)[:, None, :]
        given = free[case, state] + np.einsum("nij,nj->ni", each, on * still)
        volts[case, state] = np.linalg.solve(system, given[..., None])[..., 0]
    raise Unsettled(", ".join(sums.wired.pieces[i].id for i in sums.bends))
