"""A run as a person on set describes it. Plain records in SI units, the same on a phone: `as_data` and
`from_data` turn them into JSON and back.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

POWERINGS = ("earthed", "insulated", "battery")
SOCKETS = ("same strip", "same room", "other circuit", "other supply", "same battery", "unknown")
SCREENS = ("whole", "worn", "open at one end", "open at both ends")
COLD = ("through", "to the screen at the source", "to the screen at the input")
LIES = ("alongside", "crossing")
SPARE = ("coiled", "figure of eight")


@dataclass(frozen=True)
class Device:
    """An id of the tables or of a port, and what it is powered from. `contact_one`: the screen is known to
    wander through its circuit.
    """

    device: str
    powered: str
    contact_one: bool = False


@dataclass(frozen=True)
class Lead:
    """`length` in m; `cold` tells where the second wire of a pair ends."""

    cable: str
    length: float
    screen: str = "whole"
    cold: str = "through"


@dataclass(frozen=True)
class Beside:
    """A mains cable near the run: what it is, what hangs on it, amps where they are known (else 0), m apart,
    m alongside (0: all of it).
    """

    cable: str
    load: str
    amps: float
    distance: float
    along: float = 0.0
    lies: str = "alongside"


@dataclass(frozen=True)
class Spare:
    """Lead that is not needed: `turns` of a coil `across` m wide, `distance` m from the mains cables and
    things named (0: as the run).
    """

    lies: str
    turns: float
    across: float
    distance: float = 0.0


@dataclass(frozen=True)
class Thing:
    """A transformer or motor, `distance` m from its middle."""

    thing: str
    distance: float


@dataclass(frozen=True)
class Transmitter:
    """Something that transmits, m away; `watts` 0: as usual for its kind."""

    transmitter: str
    distance: float
    watts: float = 0.0


@dataclass(frozen=True)
class Run:
    """The whole of it. `volts` and `hertz` of the mains; `measured_volts`, `measured_amps` between the two
    cases (0: not measured); `bond` ohm
    of a wire between them (0: none); `assume` replaces what would else be guessed, by the names of the
    constants."""

    source: Device
    input: Device
    leads: tuple[Lead, ...]
    name: str = ""
    volts: float = 230.0
    hertz: float = 50.0
    sockets: str = "unknown"
    dimmers: bool = False
    held: bool = False
    measured_volts: float = 0.0
    measured_amps: float = 0.0
    bond: float = 0.0
    transformer: bool = False
    ferrite: float = 0.0
    beside: tuple[Beside, ...] = ()
    spare: Spare | None = None
    things: tuple[Thing, ...] = ()
    transmitters: tuple[Transmitter, ...] = ()
    assume: Mapping[str, float] = field(default_factory=dict)

    @property
    def length(self) -> float:
        """Metres in all."""
        return sum(lead.length for lead in self.leads)

    def as_data(self) -> dict[str, Any]:
        """Plain data, ready for JSON."""
        return {
            **asdict(self),
            "leads": [asdict(x) for x in self.leads],
            "beside": [asdict(x) for x in self.beside],
            "things": [asdict(x) for x in self.things],
            "transmitters": [asdict(x) for x in self.transmitters],
            "assume": dict(self.assume),
        }


def from_data(data: Mapping[str, Any]) -> Run:
    """The run of plain data that is known to be sound; nothing is checked here."""
    lists = {"leads": Lead, "beside": Beside, "things": Thing, "transmitters": Transmitter}
    made = {key: tuple(kind(**one) for one in data[key]) for key, kind in lists.items()}
    spare = Spare(**data["spare"]) if data["spare"] else None
    return Run(
        **{
            **data,
            **made,
            "source": Device(**data["source"]),
            "input": Device(**data["input"]),
            "spare": spare,
        }
    )
