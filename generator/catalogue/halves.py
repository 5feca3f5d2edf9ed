"""What a connector is: its halves, its face, and what its contacts carry."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from .evidence import Evidence
from .outside import Outside


@dataclass(frozen=True)
class Spring:
    """Where a jack's spring may touch, in mm from the tip end of a plug fully home, and
    how wide its contact is."""

    near: float
    far: float
    width: float


@dataclass(frozen=True)
class Spot:
    """A contact's place on the mating face of the male half (female is its mirror): clock
    degrees, mm from centre."""

    angle: float
    radius: float


@dataclass(frozen=True)
class Half:
    """One half of a family: segments of plugs (mm from the tip end), springs of jacks, how far contacts of
    others stand `forward` (mm; most makes first)."""

    name: str
    segments: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    springs: Mapping[str, Spring] = field(default_factory=dict)
    forward: Mapping[str, float] = field(default_factory=dict)
    sizes: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Connector:
    """A family. Halves of any two families with the same `bore` go into each other (plug into jack, male
    into female). `looks` is what one sees without a rule in hand (diameter in mm, numbers of contacts and
    rings, words from closed lists). `takes` names further families whose plugs go into this one's
    receptacle. `turned` is set where a plug goes in two ways round: for each contact of the receptacle the
    plug's it meets then."""

    id: str
    name: str
    shape: str  # concentric | circular | coaxial | rectangular
    bore: str
    contacts: tuple[str, ...]
    halves: Mapping[str, Half]
    face: Mapping[str, Spot]
    key_angle: float | None
    recognise: str
    also_called: tuple[str, ...]
    evidence: Evidence
    looks: Mapping[str, str | float] = field(default_factory=dict)
    takes: tuple[str, ...] = ()
    turned: Mapping[str, str] = field(default_factory=dict)
    # contacts that pass light and no current; the circuits behind them say so too, and decide the verdict
    light: tuple[str, ...] = field(default=(), repr=False)
    # decides no verdict, so no digest of one rests on it
    outside: Outside = field(default=Outside(), repr=False)

    def __hash__(self) -> int:
        """Ids are unique, so that matings can be remembered by connector."""
        return hash(self.id)


@dataclass(frozen=True)
class Assignment:
    """Which contact carries which role. A contact left out carries nothing known."""

    id: str
    name: str
    connector: str
    carries: Mapping[str, str]
    used_for: str
    mistaken_for: Mapping[str, str]  # assignment id -> what goes wrong
    also_called: tuple[str, ...]
    evidence: Evidence
    recognise: str = ""
