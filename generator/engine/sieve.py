"""What nothing comes of, told before a glance: its readings, one kind after the other and the cheapest first,
until they say so. Never worse than a glance, which has all of these and more.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import cache

import numpy as np

from generator.catalogue.records import Catalogue, Lead, Limit, Port

from .assemble import assemble
from .assembly import Assembly, Way
from .circuit import value_at
from .constants import HERTZ
from .direct import direct_readings, way_of
from .glance import least_of
from .hearing import signal_readings
from .judge import judge_way
from .pairing import comparable, inputs, outputs
from .readings import At, Named, Reading
from .rulebook import loss
from .signal import MID, NOTHING, decibels, drive_of, solve_signals
from .solve import closed_array, solve_ac
from .verdict import RANK

Read = Callable[[Assembly], Iterable[Reading]]


class Quiet:
    """Signals that add nothing to what a part sees."""

    def peak(self, place: str, limit: Limit, state: str, setting: int) -> tuple[float, At]:
        return 0.0, NOTHING


def sieve(plain: Catalogue, start: str, through: Sequence[str], target: str) -> tuple[float, int]:
    """The least that a glance at this chain can come to: its rank and what is lost. `plain` is what
    `plainly` makes of the catalogue."""
    return least_of(plain, start, through, target, _sieved)


def _sieved(
    plain: Catalogue, outlet: Port, leads: Sequence[Lead], inlet: Port, way: Way
) -> tuple[float, int]:
    @cache
    def assembly() -> Assembly:
        """What lies between the two chassis is left aside."""
        return replace(assemble(plain, outlet, leads, inlet, way, travel=False), linked=None)

    rank, lost, known = 0, 0, []
    for kind in KINDS:
        # inside the judgement, which tells what cannot be worked out
        read = lambda *_, kind=kind: known.extend(kind(assembly())) or known
        found = judge_way(plain, outlet, leads, inlet, way, read)
        # A setting that merely lacks its supply does not count; which those are is not known before all is
        # read, but the best is none of them or no better.
        rank = min(RANK[settled] for settled, _ in found.moments)
        lost = loss(finding.id for finding in found.findings if finding.severity == "lossy")
        if rank >= RANK["no signal"]:
            break
    return rank, lost


def _heard(assembly: Assembly) -> Iterator[Reading]:
    """How much is heard of what is asked about, the capacitance of cables aside, if anything is of a kind."""
    here, there = ("from", "into") if way_of(assembly, "from") == "forth" else ("into", "from")
    alike, bare = comparable(outputs(assembly, here), inputs(assembly, there)), assembly.bare
    if not alike:
        return
    sent = list(dict.fromkeys(o for o, _ in alike))
    values = np.array([[value_at(part, "nominal") for part in bare.parts]])
    states = closed_array(assembly.settled, len(bare.switches))
    drives = [drive_of(o.place, o.source) for o in sent]
    [[volts]] = solve_ac(bare, values, HERTZ[MID : MID + 1], states, drives)
    gains = [
        float(np.abs(volts[:, sent.index(o), bare.nets[a]] - volts[:, sent.index(o), bare.nets[b]]).min())
        for o, i in alike
        for a, b in [i.nodes]
    ]
    yield Reading(
        "path-gain",
        here,
        "connection",
        decibels(max(gains)),
        "dB",
        "signal",
        words={"device": Named(here), "other": Named(there)},
        flags={"cause": "open", "way": "forth"},
    )


KINDS: tuple[Read, ...] = (
    _heard,
    lambda assembly: direct_readings(assembly, Quiet()),
    lambda assembly: signal_readings(assembly, solve_signals(assembly)),
)
