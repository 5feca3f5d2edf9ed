"""Which nets anything can flow between. Two pieces of a circuit that nothing joins have no voltage over each other: no number is read there."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np
from wiring import Wiring


def tied(wired: Wiring, opens: Collection[int], states, pairs: np.ndarray) -> np.ndarray:
    """(states, pairs): is there a way from the first net of each pair (pairs, 2) to the second, over closed contacts and pieces but those in `opens`?"""
    key = frozenset(opens)
    if key not in wired.joined:
        wired.joined[key] = _joined(wired, key)
    reach, group = wired.joined[key]
    return reach[states][:, group[pairs[:, 0]], group[pairs[:, 1]]]


def _joined(wired: Wiring, opens: Collection[int]) -> tuple[np.ndarray, np.ndarray]:
    """What pieces join whatever the contacts do, as (nets,) numbers of groups; and which groups closed contacts join, (states, groups, groups)."""
    group = np.arange(wired.nets)
    for i, piece in enumerate(wired.pieces):
        if i not in opens and group[piece.a] != group[piece.b]:
            group[group == group[piece.a]] = group[piece.b]
    numbers, group = np.unique(group, return_inverse=True)
    reach = np.zeros((len(wired.closed), len(numbers), len(numbers)), dtype=np.float32)
    reach[:, range(len(numbers)), range(len(numbers))] = 1
    for (a, b), shut in zip(wired.contacts, wired.closed.T):
        for one, other in ((group[a], group[b]), (group[b], group[a])):
            reach[:, one, other] = np.maximum(reach[:, one, other], shut)
    for _ in range(len(numbers).bit_length()):  # each round doubles how many contacts a way may cross
        reach = np.minimum(reach @ reach, 1)
    return reach > 0, group


def rated_pairs(wired: Wiring) -> np.ndarray:
    """The two nets of every limit, (limits, 2)."""
    return np.array([(rated.a, rated.b) for rated in wired.rated], dtype=int).reshape(-1, 2)


def piece_pairs(wired: Wiring, pieces) -> np.ndarray:
    """The two nets of some pieces, (pieces, 2)."""
    return np.array([(wired.pieces[i].a, wired.pieces[i].b) for i in pieces], dtype=int).reshape(-1, 2)


def of_kind(wired: Wiring, *kinds: str) -> set[int]:
    """The pieces of some kinds."""
    return {i for i, piece in enumerate(wired.pieces) if piece.part.kind in kinds}
