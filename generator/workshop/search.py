"""The guided search: what is likely after the readings so far, and the measurement that is expected to tell
most.

The next measurement is the one whose answer carries most information about which fault it is (mutual
information, one step ahead). That is a good rule, not the best possible one; tests/workshop hold it against
the best for small leads.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from .dictionary import Dictionary
from .likely import Answer, likelihoods, typical
from .tables import table

NOTHING = 1e-5  # bit; a measurement that is expected to tell less is not worth the walk
FAINT = 1e-6  # of the likeliest; what is fainter does not steer the search
ALIKE = 1e-9  # closer than this is the same to every implementation
REPEATS = 2  # readings of one measurement; the second only tells whether the first was a slip


@dataclass(frozen=True)
class Ending:
    """`named` is the likeliest fault and all that no measurement tells from it; `sure` the likelihood of
    those together; `state` is measuring, named (likely, one more reading would prove it), found, or cannot
    tell (nothing is left to measure; then `named` are all that nothing has spoken against)."""

    named: tuple[int, ...]
    sure: float
    state: str


class Search:
    """A search through one dictionary. `weights` are the likelihoods before any reading, the dictionary's
    own if left out."""

    def __init__(self, dictionary: Dictionary, weights: Sequence[float] | None = None):
        self.dictionary = dictionary
        self.prior = (
            dictionary.weights if weights is None else np.asarray(weights, dtype=float) / sum(weights)
        )

    @cached_property
    def channel(self) -> np.ndarray:
        """How likely the typical answer of each class is under each class: (classes, classes), rows add up
        to 1."""
        answers = list(dict.fromkeys(typical(window) for window in self.dictionary.classes))
        found = np.array([likelihoods(answer, self.dictionary.edges) for answer in answers]).T
        return found / found.sum(axis=1, keepdims=True)

    @cached_property
    def _doubt(self) -> np.ndarray:
        return -np.sum(self.channel * np.log2(np.maximum(self.channel, 1e-300)), axis=1)

    def posterior(self, read: Sequence[tuple[int, Answer]]) -> np.ndarray:
        """How likely each fault is after readings (number of the measurement, answer)."""
        found = self.prior.copy()
        for measurement, answer in read:
            fits = likelihoods(answer, self.dictionary.edges)
            found = found * fits[self.dictionary.which[:, measurement]]
            found /= found.sum()
        return found

    @cached_property
    def _sparse(self) -> tuple[np.ndarray, ...]:
        """The table as what most faults read and where a fault reads otherwise: the commonest class of every
        measurement; fault, measurement and class of each departure from it. Measurements with the same
        readings under every fault count as one: the last is the place of each measurement among those."""
        columns, of_measurement = np.unique(self.dictionary.which, axis=1, return_inverse=True)
        usual = np.array([np.bincount(column).argmax() for column in columns.T])
        fault, measurement = np.nonzero(columns != usual)
        return usual, fault, measurement, columns[fault, measurement].astype(np.int64), of_measurement.ravel()

    def gains(self, likely: np.ndarray) -> np.ndarray:
        """The bits every measurement is expected to tell: (measurements,)."""
        usual, fault, measurement, other, of_measurement = self._sparse
        clear = np.where(likely > likely.max() * FAINT, likely, 0.0)
        clear = clear / clear.sum()
        weight, count = clear[fault], len(self.dictionary.classes)
        mass = np.bincount(measurement * count + other, weight, minlength=len(usual) * count).reshape(
            -1, count
        )
        mass[np.arange(len(usual)), usual] += 1 - np.bincount(measurement, weight, minlength=len(usual))
        heard = np.maximum(mass, 0.0) @ self.channel
        bits = -np.sum(heard * np.log2(np.maximum(heard, 1e-300)), axis=1) - mass @ self._doubt
        return bits[of_measurement]

    def best(self, likely: np.ndarray, read: Sequence[tuple[int, Answer]] = ()) -> int | None:
        """The measurement to make next; None where none is expected to tell anything, or of a fibre none can
        be made. Reading one pair over and over proves no more than that the probes did not slip."""
        if not self.dictionary.which.size:
            return None
        gains = self.gains(likely)
        often = Counter(measurement for measurement, _ in read)
        gains[[measurement for measurement, times in often.items() if times >= REPEATS]] = 0.0
        number = int(np.argmax(gains > gains.max() - ALIKE))
        return number if gains[number] >= NOTHING else None

    def ending(self, likely: np.ndarray, begun: bool, following: int | None) -> Ending:
        """Where the search stands: `begun` if anything has been read, `following` what `best` says."""
        top = int(np.argmax(likely >= likely.max() * (1 - ALIKE)))
        group = np.flatnonzero(self.dictionary.alike[top])
        sure = float(likely[group].sum())
        if sure >= _chance("enough") and self._spoken_against(likely, group, top):
            return Ending(_numbers(group), sure, "found")
        if following is not None:
            return Ending(
                _numbers(group), sure, "named" if sure >= _chance("named") and begun else "measuring"
            )
        fits = likely / self.prior
        left = np.flatnonzero(fits >= fits[top] * _chance("against"))
        return Ending(_numbers(left), float(likely[left].sum()), "cannot tell")

    def _spoken_against(self, likely: np.ndarray, group: np.ndarray, top: int) -> bool:
        """Has at least one reading spoken against every fault outside the group? A rare fault nobody looked
        for is not ruled out."""
        fits = likely / self.prior
        fits[group] = 0.0
        return bool(fits.max() <= _chance("against") * likely[top] / self.prior[top])


def _chance(row: str) -> float:
    return float(table("search")[row]["chance"])


def _numbers(found: np.ndarray) -> tuple[int, ...]:
    return tuple(int(i) for i in found)
