"""The working behind a verdict, ready to be read out: frozen, in words and numbers, without the
circuit it came from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass


@dataclass(frozen=True)
class Term:
    """A number the deciding number is made of."""

    words: str
    value: float
    unit: str


@dataclass(frozen=True)
class Net:
    """Nodes that are one point: joined by wire, closed contacts and conductors that drop next to nothing.
    `volts` against the 0 V of its piece (rms for signal, below zero where it is upside down); `gains` are V
    for a source of 1 V at 20 Hz, 1 kHz and 20 kHz, empty for direct current."""

    name: str
    nodes: tuple[str, ...]
    volts: float
    zero: bool
    gains: tuple[float, ...] = ()


@dataclass(frozen=True)
class Worked:
    """A part between two nets. `volts` is `a` over `b` and `amps` flows from a to b; for signal both are rms
    sizes and `turn` is the current's phase against the source in degrees. `kind` is a part's kind, or
    contact, or meter (where the number is read off)."""

    id: str
    name: str
    owner: str
    kind: str
    value: str
    a: str
    b: str
    volts: float
    amps: float
    turn: float
    decides: bool


@dataclass(frozen=True)
class Equation:
    """Currents that leave a net, A, by what they flow through; their sum, which must be nothing. For signal
    `amps` is the share in step with the source and `across` the share a quarter turn ahead."""

    net: str
    parts: tuple[str, ...]
    amps: tuple[float, ...]
    across: tuple[float, ...]
    sum: float
    says: str


@dataclass(frozen=True)
class Working:
    """Everything a teacher needs to follow one number. `nature` is direct (settled direct current), instant
    (the moment capacitors are struck), signal, test (a test current) or rule (no number of the circuit
    decides). `touching` are the contacts that meet; `corner` the tolerance corner; `hertz` the frequency
    shown, `level` the open-circuit volts of the source shown (amperes of a test current)."""

    start: str
    through: tuple[str, ...]
    target: str
    verdict: str
    finding: str
    severity: str
    says: str
    nature: str
    way: str
    setting: Mapping[str, str]
    state: str
    corner: str
    touching: tuple[str, ...]
    hertz: float | None
    level: float | None
    source: str
    quantity: str
    where: str
    value: float
    unit: str
    compare: str
    limit: float | None
    limit_from: str
    evidence: str
    cite: tuple[str, ...]
    titles: tuple[str, ...]
    terms: tuple[Term, ...] = ()
    nets: tuple[Net, ...] = ()
    parts: tuple[Worked, ...] = ()
    left_out: int = 0
    equation: Equation | None = None
    note: str = ""

    def as_data(self) -> dict:
        """The published form: names as here, tuples as lists."""
        return _plain(asdict(self))


def _plain(value):
    if isinstance(value, Mapping):
        return {key: _plain(item) for key, item in value.items()}
    return [_plain(item) for item in value] if isinstance(value, (tuple, list)) else value
