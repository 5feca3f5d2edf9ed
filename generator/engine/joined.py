"""Chains of one form joined with both their ports, all at once, and solved."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from itertools import pairwise

import numpy as np

from .pairing import Input, Output
from .powering import Pair
from .reduced import TIE
from .rulebook import loss, rules
from .socket import Meter, Socket
from .steps import AT, Rows

Columns = Sequence[tuple[str, int]]  # place and number of a drive


@cache
def limit(id: str, quantity: str = "", **only: str) -> float:
    """What the first such rule holds its number against."""
    return float(
        next(
            rule.limit
            for rule in rules()
            if rule.id == id
            and rule.limit != "own"
            and quantity in ("", rule.quantity)
            and all(rule.only.get(key) == word for key, word in only.items())
        )
    )


def weigh(id: str, where: np.ndarray | bool) -> np.ndarray:
    return loss([id]) * np.asarray(where, dtype=int)


class Joined:
    """Rows between two sockets. `here` are the places that send, `there` those that hear."""

    def __init__(self, start: Socket, target: Socket, rows: Rows) -> None:
        self.rows = rows
        sides = [start] * (1 + rows.more[0]), [target] * (1 + rows.more[1])
        names = [
            [f"{side}{n if n > 1 else ''}" for n in range(1, 1 + len(some))]
            for side, some in zip(("from", "into"), sides)
        ]
        self.ends: dict[str, Socket] = dict(zip((*names[0], *names[1]), (*sides[0], *sides[1])))
        sizes = np.cumsum([0, *(end.size for end in self.ends.values())]).tolist()
        self.spans = {place: slice(*span) for place, span in zip(self.ends, pairwise(sizes))}
        self.size = sizes[-1]
        # what is asked is what From sends, if it sends anything that could be heard
        forth = start.port.sources and target.port.listeners
        self.here, self.there = names if forth else names[::-1]
        self.sent = [Output(place, one) for place in self.here for one in self.ends[place].port.sources]
        self.heard = [Input(place, one) for place in self.there for one in self.ends[place].port.listeners]

    def _matrix(self, at: int, some: np.ndarray) -> np.ndarray:
        """Admittances between the contacts of all ports, joined by these rows."""
        nodes = [self.spans[place].start + node for place, end in self.ends.items() for node in end.at]
        spread = np.zeros((len(nodes), self.size))
        spread[range(len(nodes)), nodes] = 1
        matrix = spread.T @ self.rows.admittance[at][some] @ spread
        for place, end in self.ends.items():
            matrix[:, self.spans[place], self.spans[place]] += end.sees.admittance[at]
        matrix[:, range(self.size), range(self.size)] += TIE
        return matrix

    def solved(self, at: int, some: np.ndarray, columns: Columns) -> np.ndarray:
        """Volts at the contacts of all ports, (rows, nodes, drives)."""
        right = np.zeros((self.size, len(columns)), dtype=complex)
        for column, (place, drive) in enumerate(columns):
            right[self.spans[place], column] = self.ends[place].sees.pushed[at, drive]
        return np.linalg.solve(self._matrix(at, some), right[None])

    def shown(self, at: int, volts: np.ndarray, place: str, meter: Meter, columns: Columns) -> np.ndarray:
        """What a meter in a port shows, (rows, drives)."""
        each, own = self.ends[place].shown(at, meter)
        directly = [own[drive] if there == place else 0.0 for there, drive in columns]
        return np.einsum("n,rnd->rd", each, volts[:, self.spans[place]]) + directly

    def driven(self, at: int, some: np.ndarray, a: int, b: int, pair: Pair) -> np.ndarray:
        """Volts for one between the two chassis, behind what limits its current."""
        siemens = 1 / (pair.ohm + 1 / (2j * np.pi * AT[at] * pair.farad))
        matrix, right = self._matrix(at, some), np.zeros((self.size, 1), dtype=complex)
        for row, column, sign in ((a, a, 1), (b, b, 1), (a, b, -1), (b, a, -1)):
            matrix[:, row, column] += sign * siemens
        right[[a, b], 0] = siemens, -siemens
        return np.linalg.solve(matrix, right[None])

    def between(self, at: int, some: np.ndarray, a: int, b: int) -> np.ndarray:
        """Ohm between two nodes."""
        right = np.zeros((self.size, 1), dtype=complex)
        right[[a, b], 0] = 1.0, -1.0
        volts = np.linalg.solve(self._matrix(at, some), right[None])
        return np.abs(volts[:, a, 0] - volts[:, b, 0])
