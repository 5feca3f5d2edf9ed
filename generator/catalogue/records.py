"""The checked, frozen records every other part of the house works with.

Authored YAML is short; these records are complete: templates expanded, parameters substituted, units in
SI (volt, ampere, watt, ohm, farad, henry; levels in volt rms), lengths on connectors in millimetres,
angles in clock degrees. Node names inside a port are its assignment's roles, `chassis`, or
`instance.name` for inner nodes; a lead's nodes are `end.contact` or inner names. Anything not known is
`None` and counts against a connection.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from .asked import Ask, Question
from .caution import Caution
from .converters import Converter, Feeding
from .evidence import GRADES, OWN, Evidence
from .halves import Assignment, Connector, Half, Spot, Spring

# further records, from modules of their own
__all__ = [
    "GRADES",
    "OWN",
    "Ask",
    "Assignment",
    "Caution",
    "Connector",
    "Converter",
    "Evidence",
    "Half",
    "Question",
    "Spot",
    "Spring",
]


@dataclass(frozen=True)
class Quantity:
    """A value with its range, in SI units; `text` is what the author wrote."""

    nominal: float
    low: float
    high: float
    unit: str
    text: str


@dataclass(frozen=True)
class Part:
    """A two-terminal part. kind: resistor (ohm), capacitor (F), inductor (H), emf (V, a is +), sink (A from a
    to b, falling to zero below `knee` volts), clamp (no current below `value` volts a to b, then through
    `series` ohm), wire. `supply` names the switchable supply an emf belongs to; None means it is always on.
    `skew` is +1 or -1 where two parts are only matched to `match` (a fraction)."""

    id: str
    kind: str
    a: str
    b: str
    value: Quantity | None = None
    knee: float | None = None
    series: float | None = None
    supply: str | None = None
    skew: int = 0
    match: float = 0.0
    # words for a winding or ribbon that direct current must not cross, e.g. "voice coil"
    coil: str | None = None


@dataclass(frozen=True)
class Coupling:
    """Two inductors of one port or lead sharing a core: coefficient 0 < k < 1. Dots are
    at each inductor's `a`."""

    first: str
    second: str
    k: float


@dataclass(frozen=True)
class Source:
    """A channel an outlet drives. `drive` gives each emf (V) or sink (A) its signed share of one volt
    of open-circuit level."""

    id: str
    channel: str  # main | left | right | mic | ...
    kind: str  # one of kinds_shared.SIGNALS
    drive: Mapping[str, float]
    output: tuple[str, str]
    nominal: float | None
    maximum: float | None
    least_load: float | None
    balanced: bool
    supply: str | None = None  # the switch that turns it on
    form: str = ""  # what the kind alone does not tell: SDI and USB are both data. Words for people


@dataclass(frozen=True)
class Listener:
    """A channel an inlet hears, between two nodes: `sensitivity` is the lowest nominal level it can
    use, `maximum` its clip."""

    id: str
    channel: str
    kind: str
    between: tuple[str, str]
    sensitivity: float | None
    maximum: float | None
    balanced: bool
    forms: tuple[str, ...] = ()  # the forms of its kind that it understands; none: the kind tells all


@dataclass(frozen=True)
class Supply:
    """A switchable supply: `states` begin with the one that is on; `style`: pair (alike on both legs), across
    (them), single, drive (a source's)."""

    id: str
    name: str
    states: tuple[str, ...]
    style: str


@dataclass(frozen=True)
class Limit:
    """What a part stands: `quantity` is volts, reverse (volts the wrong way round, b over a), amps or watts,
    across `between` or in `part`. `settled` for ever, `seconds` for ten seconds, `momentary` for a tenth of
    one; None means not known. `reversal`: it sees volts only where a supply lies the wrong way round."""

    id: str
    where: str
    quantity: str
    part: str | None
    between: tuple[str, str] | None
    settled: float | None
    momentary: float | None
    evidence: Evidence
    seconds: float | None = None
    reversal: bool = False


@dataclass(frozen=True)
class Need:
    """The volts a powered device must find across `between` to work, `least` in V; below `full` it
    works and loses something."""

    id: str
    where: str
    between: tuple[str, str]
    least: float
    evidence: Evidence
    full: float | None = None


@dataclass(frozen=True)
class Network:
    """Parts and how they are coupled; shared by ports and leads."""

    parts: tuple[Part, ...] = ()
    couplings: tuple[Coupling, ...] = ()
    limits: tuple[Limit, ...] = ()


@dataclass(frozen=True)
class Port:
    """A connector on a device, with the circuit behind its contacts (contact -> node). `earthed` is yes, no
    or maybe: can the chassis reach mains earth by another way than this lead? `powered_by`: what it may be
    powered from; `follows`: it finds out which way round a reversible plug sits."""

    id: str
    name: str
    device: str
    connector: str
    half: str
    assignment: str
    contacts: Mapping[str, str]
    network: Network
    sources: tuple[Source, ...]
    listeners: tuple[Listener, ...]
    supplies: tuple[Supply, ...]
    needs: tuple[Need, ...]
    earthed: str
    circuits: tuple[str, ...]  # template ids, for the pages
    cautions: tuple[Caution, ...]
    also_called: tuple[str, ...]
    evidence: Evidence
    powered_by: tuple[str, ...] = ()
    follows: bool = False
    met: str = ""  # how often at work: daily, often, or nothing said
    # decides no verdict: what a manual may put in the place of what stands here
    asks: tuple[Ask, ...] = field(default=(), repr=False)
    same_as: str | None = field(default=None, repr=False)  # the port whose keys it takes


@dataclass(frozen=True)
class End:
    """One end of a lead. `usual` is the port id this end is plugged into when it is not
    part of the question."""

    id: str
    connector: str
    half: str
    label: str
    usual: str | None


@dataclass(frozen=True)
class Join:
    """A conductor: the nodes it joins. `screen` marks the one that surrounds the others."""

    id: str
    nodes: tuple[str, ...]
    screen: bool


@dataclass(frozen=True)
class Lead:
    """A cable or adapter. `network` already holds conductor resistances and cable capacitances as parts."""

    id: str
    name: str
    form: str  # cable | adapter | converter | splitter
    ends: Mapping[str, End]
    joins: tuple[Join, ...]
    parts: tuple[str, ...]  # ids in `network.parts` that are components, not cable
    network: Network
    length: float | None  # m
    cable: str | None
    impedance: float | None  # ohm, where the cable is made for digital signals
    looks_like: tuple[str, ...]
    tell_apart: str
    cautions: tuple[Caution, ...]
    also_called: tuple[str, ...]
    evidence: Evidence
    made_for: tuple[str, ...] = ()  # kinds of signal its parts are made for, beyond small ones
    met: str = ""  # how often at work: daily, often, or nothing said


@dataclass(frozen=True)
class Reference:
    """An entry of the bibliography."""

    id: str
    title: str
    where: str
    kind: str


@dataclass(frozen=True)
class Catalogue:
    """Everything that is true about hardware, by id."""

    connectors: Mapping[str, Connector]
    assignments: Mapping[str, Assignment]
    ports: Mapping[str, Port]
    leads: Mapping[str, Lead]
    sources: Mapping[str, Reference]
    retired: Mapping[str, tuple[str, ...]]  # old id -> successors
    questions: Mapping[str, Question] = field(default_factory=dict)
    converters: Mapping[str, Converter] = field(default_factory=dict)
    feeding: Mapping[str, Feeding] = field(default_factory=dict)
    local: tuple[str, ...] = ()  # ids of ports and leads that stand in somebody's own files
