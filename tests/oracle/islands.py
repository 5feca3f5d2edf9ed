"""Which nets anything can flow between: what nothing joins has no voltage over each other."""

from __future__ import annotations

from collections.abc import Collection, Iterable

import numpy as np
from wiring import Wiring


def tied(wired: Wiring, opens: Collection[int], at, pairs: np.ndarray) -> np.ndarray:
    """(states, pairs): is there a way from the first net of each pair (pairs, 2) to the second, over
    closed contacts and all pieces but those in `opens`? `at` chooses the states."""
    key = frozenset(opens)
    if key not in wired.joined:
        wired.joined[key] = _joined(wired, key)
    reach, group = wired.joined[key]
    return reach[at][:, group[pairs[:, 0]], group[pairs[:, 1]]]


def _joined(wired: Wiring, opens: Collection[int]) -> tuple[np.ndarray, np.ndarray]:
    """Which groups of nets closed contacts join, (states, groups, groups), and the group of each net,
    (nets,)."""
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


def pairs_of(things: Iterable) -> np.ndarray:
    """The two nets of pieces or limits, (things, 2)."""
    return np.array([(one.a, one.b) for one in things], dtype=int).reshape(-1, 2)
