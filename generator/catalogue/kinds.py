"""Every kind of file, declared: its keys, what they hold, which are required."""

from __future__ import annotations

from . import kinds_asked, kinds_outside
from .caution import WHEN
from .records import GRADES, OWN
from .scalars import CONTACT, NAME, Amount, Choice, Date, Name, Nothing, Number, Ref, Words
from .shapes import Either, Field, ListOf, MapOf, Record

HALVES = {
    "concentric": ("plug", "jack"),
    "coaxial": ("plug", "jack"),
    "circular": ("male", "female"),
    "rectangular": ("male", "female"),
}
SIZES = ("diameter", "length", "width", "height", "pin", "shell", "depth", "hole")
SEEN = {  # what one looks for to tell a connector by eye: closed lists, so that a page can ask
    "latch": ("none", "push-tab", "thread", "screws", "bayonet", "push-pull", "twist"),
    "keyway": ("none", "slot", "ridge", "notch", "outline"),
    "shell": ("metal", "plastic", "either", "none"),
    "outline": ("rod", "round", "D", "rectangular", "oval", "wires"),
}
SIGNALS = (
    "microphone",
    "line",
    "instrument",
    "headphone",
    "loudspeaker",
    "digital",
    "data",
    "midi",
    "video",
    "clock",
    "timecode",
    "intercom",
    "power",
)
PARTS = {
    "resistor": "ohm",
    "capacitor": "F",
    "inductor": "H",
    "emf": "V",
    "sink": "A",
    "clamp": "V",
    "wire": None,
}
LIMITED = {"volts": "V", "reverse": "V", "amps": "A", "watts": "W"}
HOW_OFTEN = ("daily", "often")  # how often one meets a port or a lead at work; left out: seldom
# mains with an earthed case, double-insulated mains, a battery or nothing
POWERINGS = ("earthed", "insulated", "battery")
RESERVED = ("use", "roles", "same_as")  # keys of an instance that are not parameters


def need(shape, help: str) -> Field:
    return Field(shape, help, required=True)


_words, _name, _contact = Words(), Name(), Name(CONTACT)
_list = ListOf(_words, one=True)
_caution = Record(
    {
        "when": need(ListOf(Choice(tuple(WHEN)), least=1, one=True), "what must be there"),
        "says": need(_words, "the warning"),
    }
)
_cautions = Field(
    ListOf(Either(_words, _caution), one=True),
    "warnings for the page, and for the answers in which their condition is there",
)
_yes_no = Choice(("yes", "no"))


def _evidence(required: bool = False) -> dict[str, Field]:
    return {
        "evidence": Field(Choice((*GRADES, OWN), rule="bad-evidence"), "how this is known", required),
        "cite": Field(ListOf(Ref("sources"), least=1, one=True), "ids of sources in sources.yaml"),
        "checked": Field(Date(), "when it was last checked"),
        "confirmed": Field(_words, "why a value outside what is usual is right all the same"),
        "note": Field(_words, "a remark; for 'from memory', what would confirm it"),
    }


def _file(kind: str, fields: dict[str, Field]) -> Record:
    same_as = Field(Ref(kind), "a record of the same kind that supplies all keys not written here")
    named = {"name": need(_words, "what people call it"), "same_as": same_as}
    return Record(named | fields | _evidence(required=True), evidence=True)


def _met() -> Field:
    shape = Record(
        {"how_often": need(Choice(HOW_OFTEN), "how often one meets it at work"), **_evidence()}, evidence=True
    )
    return Field(shape, "how common it is: lists show it before what is met more seldom")


def _length(positive: bool = False) -> Amount:
    return Amount("m", positive=positive, negative=not positive)


def _network(parameters: bool, node: Name) -> dict[str, Field]:
    """Parts, couplings and limits: the same grammar in circuits and leads; only circuits have parameters."""

    def amount(unit, **more):
        return Amount(unit, parameter=parameters, **more)

    def value(kind):
        if kind == "wire":
            return Nothing()
        return amount(
            PARTS[kind],
            positive=kind in ("resistor", "capacitor", "inductor", "sink"),
            negative=kind == "emf",
        )

    between = ListOf(node, least=2, most=2)
    part = Record(
        {kind: Field(value(kind), f"a part of the kind {kind}") for kind in PARTS}
        | {
            "between": need(between, "the two nodes it stands between, the first is +"),
            "supply": Field(_name, "the supply an emf belongs to"),
            "skew": Field(Choice(("up", "down")), "which way it may be off within `match`"),
            "match": Field(amount("1"), "how well it is matched to its partner, in %"),
            "knee": Field(amount("V", positive=True), "the voltage below which a sink draws less"),
            "series": Field(amount("ohm", positive=True), "the resistance of a clamp that conducts"),
            "coil": Field(_words, "the winding or ribbon that direct current must not cross"),
        },
        one_of=(tuple(PARTS),),
    )
    limit = Record(
        {
            "where": need(_words, "which part it is, in words"),
            "part": Field(_name, "the part it holds for"),
            "between": Field(between, "or the two nodes it holds between"),
            **{
                key: Field(amount(unit, unknown=True), "the most it stands for ever")
                for key, unit in LIMITED.items()
            },
            "momentary": Field(
                amount(None, unknown=True), "the most it stands for a tenth of a second, as while plugging"
            ),
            "seconds": Field(
                amount(None, unknown=True), "the most it stands for ten seconds, as while a capacitor fills"
            ),
            "reversal": Field(
                Choice(("yes", "no")), "yes where it sees volts only if a supply lies the wrong way round"
            ),
            **_evidence(),
        },
        one_of=(tuple(LIMITED), ("part", "between")),
        evidence=True,
    )
    coupling = Record(
        {
            "parts": need(ListOf(_name, least=2, most=2), "the two inductors"),
            "k": need(Number(0, 1, rule="bad-coupling"), "the coupling coefficient"),
        }
    )
    return {
        "parts": Field(MapOf(part, _name), "two-terminal parts by id"),
        "couplings": Field(MapOf(coupling, _name), "inductors on one core"),
        "limits": Field(MapOf(limit, _name), "what a part stands"),
    }


def _levels(*keys: str) -> dict[str, Field]:
    return {key: Field(Amount("V", unknown=True, parameter=True), f"{key} level") for key in keys}


_half = Record(
    {
        "segments": Field(
            MapOf(_length(), _contact), "where each contact lies along the barrel, from the tip end"
        ),
        "springs": Field(
            MapOf(
                Record(
                    {
                        "at": need(
                            _length(), "where the spring may touch, from the tip end of a plug that is home"
                        ),
                        "width": need(_length(positive=True), "how wide the touching part is"),
                    }
                ),
                _contact,
            ),
            "where each spring touches",
        ),
        "forward": Field(
            MapOf(_length(), _contact), "how far each contact stands forward; the largest makes first"
        ),
        **{size: Field(_length(positive=True), f"{size} of this half") for size in SIZES},
    }
)
_connector = _file(
    "connectors",
    {
        "shape": need(Choice(tuple(HALVES)), "how it is built"),
        "bore": Field(
            _name, "any plug goes into any jack of the same bore; the connector's own id if left out"
        ),
        "contacts": need(ListOf(_contact, least=1), "names of the contacts, from the tip back"),
        **{half: Field(_half, f"the {half}") for half in ("plug", "jack", "male", "female")},
        "face": Field(
            MapOf(
                Record(
                    {
                        "angle": Field(Amount("deg"), "clock degrees, 0 at the top, on a round face"),
                        "radius": Field(_length(), "from the centre, on a round face"),
                        "x": Field(Amount("m", negative=True), "right of the middle, on a rectangular face"),
                        "y": Field(Amount("m", negative=True), "below the middle, on a rectangular face"),
                    },
                    one_of=(("angle", "x"), ("radius", "y")),
                ),
                _contact,
            ),
            "the mating face of the male half",
        ),
        "key": Field(Amount("deg"), "where the key stands on the male face"),
        "takes": Field(ListOf(Ref("connectors"), one=True), "other families whose plugs go in too"),
        "turned": Field(
            MapOf(_contact, _contact),
            "where a plug goes in two ways round: receptacle contact: plug contact it meets then",
        ),
        "looks": Field(
            Record(
                {
                    "diameter": Field(
                        _length(positive=True),
                        "of the part one sees, across its longest side if it is not round",
                    ),
                    "contacts": Field(Number(above=0), "how many contacts one counts"),
                    "rings": Field(Number(above=-1), "how many insulating rings one counts on the rod"),
                    **{key: Field(Choice(options), f"its {key}") for key, options in SEEN.items()},
                }
            ),
            "what one sees, for telling it by a few questions",
        ),
        "recognise": Field(_words, "how to tell it by eye"),
        "also_called": Field(_list, "other names"),
        **kinds_outside.fields(_evidence()),
    },
)
_assignment = _file(
    "assignments",
    {
        "connector": need(Ref("connectors"), "the connector"),
        "carries": need(MapOf(_name, _contact, least=1), "contact: role"),
        "used_for": Field(_words, "one sentence"),
        "recognise": Field(_words, "how to tell it from its twins: label, habit or meter"),
        "mistaken_for": Field(MapOf(_words, Ref("assignments")), "assignment: what goes wrong"),
        "also_called": Field(_list, "other names"),
    },
)

_pair = ListOf(_name, least=2, most=2)
_value = Amount(None, negative=True, unknown=True)
_parameter = Either(_value, Record({"value": need(_value, "the quantity"), **_evidence()}, evidence=True))
_circuit = _file(
    "circuits",
    {
        "roles": need(ListOf(_name, least=1), "the nodes that lead to contacts"),
        "parameters": Field(MapOf(_parameter, _name), "values a port may replace"),
        **_network(parameters=True, node=_name),
        "sources": Field(
            MapOf(
                Record(
                    {
                        "kind": need(Choice(SIGNALS), "what kind of signal"),
                        "drive": need(
                            MapOf(Number(), _name, least=1),
                            "emf or sink: its share of one volt of open-circuit level",
                        ),
                        "output": need(_pair, "the nodes it drives, the first is hot"),
                        **_levels("nominal", "maximum"),
                        "least_load": Field(
                            Amount("ohm", positive=True, unknown=True, parameter=True),
                            "the least load it is made for",
                        ),
                        "supply": Field(_name, "the switch that turns it on"),
                        "balanced": Field(_yes_no, "is it a balanced output"),
                    }
                ),
                _name,
            ),
            "channels it drives",
        ),
        "listeners": Field(
            MapOf(
                Record(
                    {
                        "kind": need(Choice(SIGNALS), "what kind of signal"),
                        "between": need(_pair, "the nodes it hears, the first is hot"),
                        **_levels("sensitivity", "maximum"),
                        "balanced": Field(_yes_no, "is it a balanced input"),
                    }
                ),
                _name,
            ),
            "channels it hears",
        ),
        "supplies": Field(
            MapOf(
                Record(
                    {
                        "name": need(_words, "what the switch is called"),
                        "style": need(
                            Choice(("pair", "across", "single", "drive")),
                            "alike on both legs, between the legs, single, or the switch of a source",
                        ),
                        "states": Field(ListOf(_words, least=2), "the switch positions, on first"),
                    }
                ),
                _name,
            ),
            "supplies that can be switched",
        ),
        "needs": Field(
            MapOf(
                Record(
                    {
                        "where": need(_words, "what needs it, in words"),
                        "between": need(_pair, "the nodes it is powered from"),
                        "volts": need(Amount("V", positive=True, parameter=True), "the least it works with"),
                        "full": Field(
                            Amount("V", positive=True, parameter=True), "the least at which it loses nothing"
                        ),
                        **_evidence(),
                    },
                    evidence=True,
                ),
                _name,
            ),
            "the volts it must find",
        ),
        **kinds_asked.fields(_value),
    },
)
_amps = Amount("A", positive=True)
_cable = _file(
    "cables",
    {
        "core": need(Amount("ohm/m", positive=True), "resistance of a core"),
        "screen": Field(Amount("ohm/m", positive=True), "resistance of the screen, if it has one"),
        "core_to_core": Field(Amount("F/m"), "capacitance between two cores"),
        "core_to_screen": Field(Amount("F/m"), "capacitance of a core to the screen"),
        "current": need(
            Either(_amps, Record({"value": need(_amps, "the current"), **_evidence()}, evidence=True)),
            "what one conductor carries for hours without getting warm",
        ),
        "impedance": Field(
            Amount("ohm", positive=True), "characteristic impedance, where it is made for digital signals"
        ),
    },
)
_instance = Record(
    {
        "use": Field(Ref("circuits"), "the circuit", required=True),
        "same_as": Field(_name, "another instance of this port that supplies what is not written here"),
        "roles": Field(MapOf(_name, _name), "role of the circuit: role of the assignment, where they differ"),
    },
    rest=MapOf(_parameter, _name),
)
_port = _file(
    "ports",
    {
        "device": need(_words, "the class of device"),
        "connector": need(Ref("connectors"), "the connector"),
        "half": need(Choice(("plug", "jack", "male", "female")), "which half is on the device"),
        "assignment": need(Ref("assignments"), "which contact carries what"),
        "circuit": need(MapOf(_instance, _name, least=1), "channel: the circuit behind it"),
        "earthed": need(Choice(("yes", "no", "maybe")), "can the chassis reach mains earth by another way"),
        "powered_by": Field(
            ListOf(Choice(POWERINGS), one=True),
            "what it may be powered from; follows from `earthed` if left out",
        ),
        "follows": Field(
            _yes_no, "does the device find out which way round a reversible plug sits, and follow"
        ),
        "cautions": _cautions,
        "also_called": Field(_list, "other names"),
        "met": _met(),
    },
)
_end = Record(
    {
        "connector": need(Ref("connectors"), "the connector"),
        "half": need(Choice(("plug", "jack", "male", "female")), "which half is on the lead"),
        "label": need(_words, "what to call this end"),
        "usual": Field(Ref("ports"), "the port it is in when it is not asked about"),
    }
)
_node = Name(rf"{NAME}(\.{CONTACT})?")
_lead = _file(
    "leads",
    {
        "form": need(Choice(("cable", "adapter", "converter", "splitter")), "what it looks like"),
        "ends": need(MapOf(_end, _name, least=2), "the ends"),
        "joins": Field(
            MapOf(ListOf(_node, least=1), _name),
            "conductor: the nodes it joins, `end.contact` or inner names",
        ),
        "cable": Field(Ref("cables"), "the cable it is made of"),
        "length": Field(Amount("m", positive=True), "how long it is"),
        "screens": Field(
            ListOf(_name, one=True), "joins that surround the others; by default the one named screen"
        ),
        **_network(parameters=False, node=_node),
        "made_for": Field(
            ListOf(Choice(SIGNALS), one=True), "kinds of signal its parts are made for, beyond small ones"
        ),
        "looks_like": Field(
            ListOf(Ref("leads"), one=True), "leads of the same form that are wired differently"
        ),
        "tell_apart": Field(_words, "how to tell them apart"),
        "cautions": _cautions,
        "also_called": Field(_list, "other names"),
        "met": _met(),
    },
)
_sources = MapOf(
    Record(
        {
            "title": need(_words, "its title"),
            "where": need(_words, "publisher, number, address"),
            "kind": need(_words, "what kind of document"),
        }
    ),
    _name,
)
_retired = Record(
    {
        "moved": Field(MapOf(_name, _name), "old id: new id"),
        "split": Field(MapOf(ListOf(_name, least=2), _name), "old id: new ids"),
    }
)

KINDS = {
    "connectors": _connector,
    "assignments": _assignment,
    "circuits": _circuit,
    "cables": _cable,
    "ports": _port,
    "leads": _lead,
    "sources": _sources,
    "questions": MapOf(kinds_asked.QUESTION, _name),
    "retired": _retired,
}
SINGLE = ("sources", "questions", "retired")  # kinds of which there is one file
FOLDERS = tuple(kind for kind in KINDS if kind not in SINGLE)
