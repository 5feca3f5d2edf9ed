"""Find again the worst case of sources at their loudest: what a rated part and an output stage get of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from generator.catalogue.records import Limit

from .assemble import Assembly
from .bench import Bench
from .cases import Case, Decides, signal_case
from .direct import part_index
from .readings import Reading
from .signal import HERTZ, MID, counted_levels, limit_signal, loudest
from .solve import closed_array, most_at, part_signal_amps, solve_ac


def stage(assembly: Assembly, reading: Reading) -> Case | None:
    """The current through an output stage: its own at full level, or what the other outputs push into it."""
    bench, name = Bench(assembly), reading.subject
    place, source = bench.sources[name]
    stages = [i for part in source.drive if (i := part_index(bench.circuit, place, part)) is not None and bench.circuit.parts[i].kind == "emf"]
    if not stages or reading.value == 0:
        return None
    others = [name] if reading.quantity == "driven-amps" else [other for other, (there, _) in bench.sources.items() if there != place]
    values = np.array([bench.values(bench.circuit, corner) for corner in bench.corners])
    home = closed_array(assembly.home, len(bench.circuit.switches))
    found = solve_ac(bench.circuit, values, HERTZ, home, [bench.drive(other) for other in others])
    levels = np.array([loudest(bench.sources[other][1]) for other in others])
    amps = np.array([np.abs(part_signal_amps(bench.circuit, values, HERTZ, found, i)) * levels for i in stages])
    return _loud(bench, others, amps, [bench.circuit.parts[i].id for i in stages], levels)


def _loud(bench: Bench, names: Sequence[str], amps: np.ndarray, parts: Sequence[str], levels: np.ndarray) -> Case:
    """The worst of (stages, corners, frequencies, states, sources), shown for the source that adds most."""
    total = amps.sum(axis=-1)
    which, corner, at, state = most_at(total)
    shares = amps[which, corner, at, state]
    [main] = most_at(shares)
    case = bench.case(names[main], state, parts[which], at, corner=bench.corners[corner], level=float(levels[main]))
    terms = tuple((f"from {name}", float(share), "A") for name, share in zip(names, shares)) if len(names) > 1 else ()
    return replace(case, number=float(total.max()), terms=terms)


def loud_case(assembly: Assembly, place: str, limit: Limit, state: str, decides: Decides, number: float, terms: Sequence) -> Case:
    """A rated part that signal stresses more than direct current does: its worst case, shown for the source that adds most."""
    bench = Bench(assembly)
    names, counted = list(bench.sources), counted_levels(bench.sources, place, limit)
    settled = state == "settled"
    corners, edges = (bench.corners, range(3)) if settled else (("nominal",), (MID,))
    states = assembly.home if settled else assembly.plugging
    values, hertz = np.array([bench.values(bench.circuit, corner) for corner in corners]), [HERTZ[at] for at in edges]
    found = solve_ac(bench.circuit, values, hertz, closed_array(states, len(bench.circuit.switches)), [bench.drive(name) for name in names])
    total = limit_signal(assembly, place, limit, found, hertz, values, counted)
    corner, at, which = most_at(total)
    alone = [limit_signal(assembly, place, limit, found, hertz, values, counted * (np.arange(len(names)) == i))[corner, at, which]
             for i in range(len(names))]
    [main] = most_at(np.array(alone))
    return signal_case(bench.circuit, values[corner], states[which], corners[corner], bench.drive(names[main]), edges[at], decides, number, terms,
                       float(counted[main]), names[main])


FINDERS = {"forced-amps": stage, "driven-amps": stage}
