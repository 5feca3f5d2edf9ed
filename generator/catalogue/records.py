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
from .evidence import GRADES, OWN, Evidence
from .outside import Outside

# further records, from modules of their own
__all__ = ["GRADES", "OWN", "Ask", "Caution", "Evidence", "Question"]


@dataclass(frozen=True)
class Quantity:
    """A value with its range, in SI units; `text` is what the author wrote."""

    nominal: float
    low: float
    high: float
    unit: str
    text: str


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
    kind: str  # one of kinds.SIGNALS
    drive: Mapping[str, float]
    output: tuple[str, str]
    nominal: float | None
    maximum: float | None
    least_load: float | None
    balanced: bool
    supply: str | None = None  # the switch that turns it on


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
    local: tuple[str, ...] = ()  # ids of ports and leads that stand in somebody's own files
