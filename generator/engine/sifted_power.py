"""What direct current tells of chains, all at once: whether what needs power gets it, and what more than it
stands. With every supply on, settled, at nominal values."""

from __future__ import annotations

import numpy as np

from generator.catalogue.records import Limit

from .joined import Joined, limit
from .limits import kind_of
from .rulebook import loss
from .socket import Socket
from .steps import DIRECT
from .switches import settings

SOME = 0.03  # what a number may be off


def powered(joined: Joined, bends: np.ndarray, some: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Which rows are powered and not dangerous, and what is lost in windings. Leads with a supply inside
    are left alone."""
    well, lost = np.ones(len(some), dtype=bool), np.zeros(len(some), dtype=int)
    supplied = {place for place, end in joined.ends.items() if end.supplies}
    needy = [place for place in joined.here if joined.ends[place].port.needs]
    todo = np.flatnonzero(~bends[joined.rows.leads[some]].any(axis=1))
    if not len(todo) or not (supplied or needy):
        return well, lost
    columns = [(place, len(end.drives) - last) for last in (2, 1) for place, end in joined.ends.items()]
    volts = joined.solved(DIRECT, some[todo], columns)
    drawn = lambda place, meter: joined.shown(DIRECT, volts, place, meter, columns).sum(axis=1).real
    every = [(place, end.across[part.id], part) for place, end in joined.ends.items() for part in end.sinks]
    # what draws its fill holds where it finds the volts to; with less than that, the volts without it are
    # the most that can be there, and a single one has no more than it needs to draw
    held = np.all([np.ones(len(todo)), *(drawn(place, at) >= part.knee for place, at, part in every)], axis=0)
    for place in needy:
        powered = []
        for one in joined.ends[place].port.needs:
            most = (
                joined.shown(DIRECT, volts, place, one.between, columns)[:, : len(joined.ends)]
                .sum(axis=1)
                .real
            )
            if len(every) == 1 and every[0][:2] == (place, one.between):
                most = np.minimum(most, every[0][2].knee)
            powered.append(np.where(held, drawn(place, one.between), most) >= one.least * (1 - SOME))
        well[todo] &= np.any(powered, axis=0)
    for place, end in joined.ends.items():
        for part in end.clamps:  # the answer holds where none conducts
            held &= drawn(place, end.across[part.id]) < part.value.nominal * (1 - SOME)
    harmed, coils = np.zeros(len(todo), dtype=bool), np.zeros(len(todo), dtype=bool)
    for place, end in joined.ends.items():
        for one in end.port.network.limits:
            if one.quantity == "watts" or not (one.settled is not None or supplied - {place}):
                continue
            value = drawn(place, end.meter(one))
            turned = one.quantity == "reverse" and one.settled is not None
            value = np.maximum(-value, 0.0) if turned else np.abs(value)
            harmed |= value > _rating(end, one) * (1 + SOME)
        for part, told in end.supplies.items():
            fed = drawn(place, part) * np.sign(told)
            harmed |= fed > limit("supply-against-supply", live="yes") * (1 + SOME)
        for part in end.coils if supplied - {place} else ():
            coils |= np.abs(drawn(place, part)) > limit("bias-through-coil") * (1 + SOME)
    if len(settings({place: end.port for place, end in joined.ends.items()})) <= 2:  # else see glance.py
        well[todo[held & harmed]] = False
    pair = any(one.style == "pair" for end in joined.ends.values() for one in end.port.supplies)
    lost[todo[held & coils]] = loss(["uneven-phantom" if pair else "bias-through-coil"])
    return well, lost


def _rating(end: Socket, one: Limit) -> float:
    if one.settled is not None:
        return one.settled
    kind = {} if one.quantity == "reverse" else {"kind": kind_of(end.port, one)}
    id = "supply-reversed" if kind.get("kind") == "reversal" else "rating-not-known"
    return limit(id, f"unrated-{one.quantity}", **kind)
