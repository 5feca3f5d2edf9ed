"""A person with a meter in front of a lead with a known fault: honest readings within the meter's error,
and now and then a wrong one.

The windows come from the dictionary, the noise and the path of the search from here: 10 % and 0.3 ohm
either way.
"""

from dataclasses import dataclass
from math import inf
from random import Random

import numpy as np

from generator.workshop.likely import MOVES, all_apart, likelihoods
from generator.workshop.search import Search


@dataclass(frozen=True)
class Run:
    """How a search went: its ending, how many readings until it first named the fault, and in all."""

    ending: object
    named: int
    count: int


def honest(window, rng: Random):
    """What a person reads who makes no mistake; a contact that comes and goes does so while it is flexed."""
    if window.moves:
        return MOVES
    if window.low == inf:
        return inf
    if window.high == inf:  # a junction: either way round
        return inf if rng.random() < 0.5 else 3 * window.low + 1
    true = rng.uniform(window.low, window.high)
    return max(0.0, true * (1 + rng.uniform(-0.1, 0.1)) + rng.uniform(-0.3, 0.3))


class Bench:
    """Runs searches on one dictionary and remembers which measurement followed which answers."""

    def __init__(self, dictionary, weights=None):
        self.dictionary, self.search, self._next = dictionary, Search(dictionary, weights), {}
        self.others = [
            [dictionary.classes[k] for k in row.nonzero()[0]] for row in all_apart(dictionary.edges)
        ]

    def run(self, fault: int, rng: Random, lie: int | None = None) -> Run:
        """Search for a fault; the reading number `lie` (from 0) is made of another
        class than the true one."""
        known, read, likely, key, named = self.dictionary, [], self.search.prior, (), None
        while True:
            if key not in self._next:
                self._next[key] = self.search.best(likely, read)
            measurement = self._next[key]
            ending = self.search.ending(likely, bool(read), measurement)
            if named is None and ending.state in ("named", "found") and fault in ending.named:
                named = len(read)
            if ending.state in ("found", "cannot tell"):
                return Run(ending, len(read) if named is None else named, len(read))
            number = known.which[fault, measurement]
            window, others = known.classes[number], self.others[number]
            answer = honest(rng.choice(others) if lie == len(read) and others else window, rng)
            read.append((measurement, answer))
            fits = likelihoods(answer, known.edges)
            likely = likely * fits[known.which[:, measurement]]
            likely = likely / likely.sum()
            key = (
                *key,
                (measurement, answer if answer in (MOVES, inf) else round(float(np.log(answer + 0.05)), 1)),
            )
