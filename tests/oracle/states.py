"""Every state of some plugs, read a second time: home, on the way in, with mains earth."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

import numpy as np

HOME, PLUGGING, APART = "home", "plugging", "apart"
OUT = frozenset()  # a plug that touches nothing
Landed = tuple[frozenset, ...]  # which contacts touch, at every interface


class States(NamedTuple):
    """`closed` (states, contacts); `kinds` and `earthed` (states,); `before`: numbers of the states each
    may come from."""

    closed: np.ndarray
    kinds: np.ndarray
    earthed: np.ndarray
    before: tuple[tuple[int, ...], ...]


def states(interfaces: Sequence, touches: Sequence[Sequence], main: int, earth: bool) -> States:
    """All home; one plug on its way, what lies beyond it on either side plugged or not yet; a spare end on
    its way, the rest home; all of it again with both chassis tied by mains earth, which is then the last
    contact; everything apart.

    `touches` are the contacts of each interface, the first `main` of which lead from outlet to inlet. A
    state comes from the one with its moving plug out, a plugging one also from those with it home, the other
    plugs as they are; and home from home without or with earth."""
    homes = [made.mating.home for made in interfaces]
    moved: dict[Landed, set[int]] = {landed: set(range(len(homes))) for landed in product(*homes)}
    home = range(len(moved))
    for k in range(len(homes)):
        for landed in _moving(interfaces, homes, k, main):
            moved.setdefault(landed, set()).add(k)
    order = {landed: row for row, landed in enumerate(moved)}
    closed = [[touch in landed[k] for k, some in enumerate(touches) for touch in some] for landed in order]
    before = []
    for landed, row in order.items():
        came = {
            (*landed[:k], plug, *landed[k + 1 :])
            for k in moved[landed]
            for plug in (OUT, *(() if row in home else homes[k]))
        }
        before.append(tuple(sorted({order[one] for one in came if one in order} - {row})))
    count = len(closed)
    kinds = [HOME if row in home else PLUGGING for row in range(count)]
    if not earth:
        return _with_apart(closed, kinds, [False] * count, before)
    tied = [tuple(row + count for row in some) for some in before]
    for row in home:
        before[row], tied[row] = (*before[row], row + count), (row, *tied[row])
    closed = [[*row, shut] for shut in (False, True) for row in closed]
    return _with_apart(closed, kinds * 2, [False] * count + [True] * count, before + tied)


def _moving(interfaces: Sequence, homes: Sequence, k: int, main: int) -> Iterator[Landed]:
    """Interface `k` on its way or out; the others home, or, between outlet and inlet, not yet plugged on
    one side of it."""
    moving = (*interfaces[k].mating.travel, OUT)
    nothing = [(OUT,)] * main
    sides = ((homes, homes), (homes, nothing), (nothing, homes)) if k < main else ((homes, homes),)
    for near, far in sides:
        yield from product(*near[:k], moving, *far[k + 1 : main], *homes[max(main, k + 1) :])


def _with_apart(closed: list, kinds: list, earthed: list, before: list) -> States:
    closed.append([False] * len(closed[0]))
    return States(
        np.array(closed, dtype=bool).reshape(len(closed), -1),
        np.array([*kinds, APART]),
        np.array([*earthed, False]),
        (*before, ()),
    )
