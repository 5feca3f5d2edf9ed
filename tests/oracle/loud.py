"""Alternating current, read a second time: all sources at their loudest, on everything rated."""

from __future__ import annotations

import numpy as np
from corners import values
from islands import pairs_of, tied
from settings import Modes
from states import HOME, PLUGGING
from wiring import Rated, Wiring

HERTZ = {HOME: (20.0, 1000.0, 20000.0), PLUGGING: (1000.0,)}


def loudness(wired: Wiring, asked: Modes, corner: str, kind: str) -> np.ndarray:
    """Volts and amps of every limit at their peak, or watts, of all sources together in the states of a
    kind: (modes, states, limits), the worst of the frequencies. Sources add up as if all their peaks came
    at once. Nothing where a rating is about direct current alone."""
    at = np.flatnonzero(wired.kinds == kind)
    counted = [k for k, rated in enumerate(wired.rated) if not direct_only(wired, rated)]
    worst = np.zeros((len(asked), len(at), len(wired.rated)))
    heard = np.flatnonzero(asked.levels.any(axis=0))
    if not counted or not heard.size or not at.size:
        return worst
    worth, pace = values(wired, corner), 2j * np.pi * np.array(HERTZ[kind])
    found = alternating(wired, [asked.sources[k] for k in heard], worth, at, pace)
    levels = asked.levels[:, heard].T
    for k in counted:
        rated = wired.rated[k]
        volts = np.abs(found[:, :, rated.a] - found[:, :, rated.b]) @ levels  # (frequencies, states, modes)
        if rated.limit.quantity == "volts":
            shown = volts * np.sqrt(2)
        else:
            amps = np.abs(_amps(wired, rated, worth, pace, found)) @ levels
            shown = amps * np.sqrt(2) if rated.limit.quantity == "amps" else amps * volts
        worst[..., k] = shown.max(axis=0).T
    return worst * tied(wired, wired.of("sink", "clamp"), at, pairs_of(wired.rated))


def direct_only(wired: Wiring, rated: Rated) -> bool:
    """A capacitor's reverse rating and what a winding or ribbon may carry: signal moves to and fro."""
    coil = rated.piece is not None and wired.pieces[rated.piece].part.coil
    return rated.limit.quantity == "reverse" or (rated.limit.quantity == "amps" and bool(coil))


def alternating(wired: Wiring, sources, worth: np.ndarray, at: np.ndarray, pace: np.ndarray) -> np.ndarray:
    """Unknowns per volt of each source at some complex angular frequencies, in the states `at`:
    (frequencies, states, size, sources). Supplies are shorts; sinks and clamps are open."""
    row, number = wired.branch, {piece.id: i for i, piece in enumerate(wired.pieces)}
    siemens = np.zeros((len(pace), len(worth)), dtype=complex)
    own = np.zeros((len(pace), wired.size, wired.size), dtype=complex)
    for i, (piece, value) in enumerate(zip(wired.pieces, worth)):
        if piece.part.kind in ("resistor", "capacitor"):
            siemens[:, i] = 1 / value if piece.part.kind == "resistor" else pace * value
        elif piece.part.kind == "inductor":
            own[:, row[i], row[i]] -= pace * value
    for one, other, k in wired.couplings:
        mutual = pace * k * np.sqrt(worth[one] * worth[other])
        own[:, row[one], row[other]] -= mutual
        own[:, row[other], row[one]] -= mutual
    right = np.zeros((wired.size, len(sources)))
    for column, (place, source) in enumerate(sources):
        for part, share in source.drive.items():
            i = number[f"{place}/{part}"]
            if i in row:
                right[row[i], column] += share
            else:
                right[wired.pieces[i].a, column] -= share
                right[wired.pieces[i].b, column] += share
    stamped = siemens.real @ wired.stamps + 1j * (siemens.imag @ wired.stamps)
    matrix = own + wired.frame + stamped.reshape(own.shape)
    return np.linalg.solve(matrix[:, None] + wired.touching[at], right)


def _amps(wired: Wiring, rated: Rated, worth: np.ndarray, pace: np.ndarray, found: np.ndarray) -> np.ndarray:
    kind = wired.pieces[rated.piece].part.kind
    if rated.piece in wired.branch:
        return found[:, :, wired.branch[rated.piece]]
    across = found[:, :, rated.a] - found[:, :, rated.b]
    if kind == "resistor":
        return across / worth[rated.piece]
    return across * pace[:, None, None] * worth[rated.piece] if kind == "capacitor" else np.zeros_like(across)
