"""Alternating current, read a second time: what all sources at their loudest put on everything that has a rating."""

from __future__ import annotations

import numpy as np
from islands import of_kind, rated_pairs, tied
from settings import Modes
from wiring import HOME, PLUGGING, Rated, Wiring, worth

HERTZ = {HOME: (20.0, 1000.0, 20000.0), PLUGGING: (1000.0,)}


def loudness(wired: Wiring, asked: Modes, corner: str, kind: str) -> np.ndarray:
    """Volts and amps of every limit at their peak, or watts, of all sources together in the states of a kind: (modes, states, limits), the worst of
    the frequencies. Sources add up as if all peaks came at once. Nothing where a rating is about direct current alone."""
    states = wired.kinds == kind
    counted = [k for k, rated in enumerate(wired.rated) if not direct_only(wired, rated)]
    worst = np.zeros((len(asked.positions), int(states.sum()), len(wired.rated)))
    heard = np.flatnonzero(asked.levels.any(axis=0))
    if not counted or not heard.size or not states.any():
        return worst
    values = np.array([worth(piece.part, corner) for piece in wired.pieces])
    pace = 2j * np.pi * np.array(HERTZ[kind])
    found = alternating(wired, [asked.sources[k] for k in heard], values, states, pace)
    levels = asked.levels[:, heard].T
    for k in counted:
        rated = wired.rated[k]
        volts = np.abs(found[:, :, rated.a] - found[:, :, rated.b]) @ levels  # (frequencies, states, modes)
        if rated.limit.quantity == "volts":
            shown = volts * np.sqrt(2)
        else:
            amps = np.abs(_amps(wired, rated, values, pace, found)) @ levels
            shown = amps * np.sqrt(2) if rated.limit.quantity == "amps" else amps * volts
        worst[..., k] = shown.max(axis=0).T
    return worst * tied(wired, of_kind(wired, "sink", "clamp"), states, rated_pairs(wired))


def direct_only(wired: Wiring, rated: Rated) -> bool:
    """A capacitor's reverse rating and what a winding or ribbon may carry: signal moves to and fro."""
    coil = rated.piece is not None and wired.pieces[rated.piece].part.coil
    return rated.limit.quantity == "reverse" or rated.limit.quantity == "amps" and bool(coil)


def alternating(wired: Wiring, sources, values: np.ndarray, states: np.ndarray, pace: np.ndarray) -> np.ndarray:
    """Unknowns per volt of each source: (frequencies, states, size, sources). Supplies are shorts; sinks and clamps are open."""
    row, at = wired.branch, {piece.id: i for i, piece in enumerate(wired.pieces)}
    siemens = np.zeros((len(pace), len(values)), dtype=complex)
    own = np.zeros((len(pace), wired.size, wired.size), dtype=complex)
    for i, (piece, value) in enumerate(zip(wired.pieces, values)):
        if piece.part.kind in ("resistor", "capacitor"):
            siemens[:, i] = 1 / value if piece.part.kind == "resistor" else pace * value
        elif piece.part.kind == "inductor":
            own[:, row[i], row[i]] -= pace * value
    for one, other, k in wired.couplings:
        mutual = pace * k * np.sqrt(values[one] * values[other])
        own[:, row[one], row[other]] -= mutual
        own[:, row[other], row[one]] -= mutual
    right = np.zeros((wired.size, len(sources)))
    for column, (place, source) in enumerate(sources):
        for part, share in source.drive.items():
            i = at[f"{place}/{part}"]
            if i in row:
                right[row[i], column] += share
            else:
                right[wired.pieces[i].a, column] -= share
                right[wired.pieces[i].b, column] += share
    matrix = own + wired.frame + (siemens.real @ wired.stamps + 1j * (siemens.imag @ wired.stamps)).reshape(own.shape)
    return np.linalg.solve(matrix[:, None] + wired.touching[states], right)


def _amps(wired: Wiring, rated: Rated, values: np.ndarray, pace: np.ndarray, found: np.ndarray) -> np.ndarray:
    kind = wired.pieces[rated.piece].part.kind
    if rated.piece in wired.branch:
        return found[:, :, wired.branch[rated.piece]]
    across = found[:, :, rated.a] - found[:, :, rated.b]
    if kind == "resistor":
        return across / values[rated.piece]
    return across * pace[:, None, None] * values[rated.piece] if kind == "capacitor" else np.zeros_like(across)
