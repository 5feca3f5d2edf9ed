"""Every kind of file, declared: its keys, what they hold, which are required."""

from __future__ import annotations

from . import kinds_asked
from .caution import WHEN
from .kinds_circuits import CIRCUIT, network_keys
from .kinds_connectors import ASSIGNMENT, CONNECTOR
from .kinds_converters import CONVERTER, FEEDING
from .kinds_shared import ID, PARAMETER, SEVERAL, SIGNALS, WORDS, YES_NO, evidence_keys, file_of, need
from .scalars import CONTACT, NAME, Amount, Choice, Name, Ref
from .shapes import Either, Field, ListOf, MapOf, Record

HOW_OFTEN = ("daily", "often")  # how often one meets a port or a lead at work; left out: seldom
# mains with an earthed case, double-insulated mains, a battery or nothing
POWERINGS = ("earthed", "insulated", "battery")
RESERVED = ("use", "roles", "same_as")  # keys of an instance that are not parameters

_caution = Record(
    {
        "when": need(ListOf(Choice(tuple(WHEN)), least=1, one=True), "what must be there"),
        "says": need(WORDS, "the warning"),
    }
)
_cautions = Field(
    ListOf(Either(WORDS, _caution), one=True),
    "warnings for the page, and for the answers in which their condition is there",
)


def _met() -> Field:
    shape = Record(
        {"how_often": need(Choice(HOW_OFTEN), "how often one meets it at work"), **evidence_keys()},
        evidence=True,
    )
    return Field(shape, "how common it is: lists show it before what is met more seldom")


_amps = Amount("A", positive=True)
_cable = file_of(
    "cables",
    {
        "light": Field(YES_NO, "are there fibres in it; with nothing else, it has no core and no current"),
        "core": Field(Amount("ohm/m", positive=True), "resistance of a core"),
        "screen": Field(Amount("ohm/m", positive=True), "resistance of the screen, if it has one"),
        "core_to_core": Field(Amount("F/m"), "capacitance between two cores"),
        "core_to_screen": Field(Amount("F/m"), "capacitance of a core to the screen"),
        "current": Field(
            Either(_amps, Record({"value": need(_amps, "the current"), **evidence_keys()}, evidence=True)),
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
        "same_as": Field(ID, "another instance of this port that supplies what is not written here"),
        "roles": Field(MapOf(ID, ID), "role of the circuit: role of the assignment, where they differ"),
    },
    rest=MapOf(PARAMETER, ID),
)
_port = file_of(
    "ports",
    {
        "device": need(WORDS, "the class of device"),
        "connector": need(Ref("connectors"), "the connector"),
        "half": need(Choice(("plug", "jack", "male", "female")), "which half is on the device"),
        "assignment": need(Ref("assignments"), "which contact carries what"),
        "circuit": need(MapOf(_instance, ID, least=1), "channel: the circuit behind it"),
        "earthed": need(Choice(("yes", "no", "maybe")), "can the chassis reach mains earth by another way"),
        "powered_by": Field(
            ListOf(Choice(POWERINGS), one=True),
            "what it may be powered from; follows from `earthed` if left out",
        ),
        "follows": Field(
            YES_NO, "does the device find out which way round a reversible plug sits, and follow"
        ),
        "cautions": _cautions,
        "also_called": Field(SEVERAL, "other names"),
        "met": _met(),
    },
)
_end = Record(
    {
        "connector": need(Ref("connectors"), "the connector"),
        "half": need(Choice(("plug", "jack", "male", "female")), "which half is on the lead"),
        "label": need(WORDS, "what to call this end"),
        "usual": Field(Ref("ports"), "the port it is in when it is not asked about"),
    }
)
_node = Name(rf"{NAME}(\.{CONTACT})?")
_lead = file_of(
    "leads",
    {
        "form": need(Choice(("cable", "adapter", "converter", "splitter")), "what it looks like"),
        "ends": need(MapOf(_end, ID, least=2), "the ends"),
        "joins": Field(
            MapOf(ListOf(_node, least=1), ID), "conductor: the nodes it joins, `end.contact` or inner names"
        ),
        "cable": Field(Ref("cables"), "the cable it is made of"),
        "length": Field(Amount("m", positive=True), "how long it is"),
        "screens": Field(
            ListOf(ID, one=True), "joins that surround the others; by default the one named screen"
        ),
        **network_keys(parameters=False, node=_node),
        "made_for": Field(
            ListOf(Choice(SIGNALS), one=True), "kinds of signal its parts are made for, beyond small ones"
        ),
        "looks_like": Field(
            ListOf(Ref("leads"), one=True), "leads of the same form that are wired differently"
        ),
        "tell_apart": Field(WORDS, "how to tell them apart"),
        "cautions": _cautions,
        "also_called": Field(SEVERAL, "other names"),
        "met": _met(),
    },
)
_sources = MapOf(
    Record(
        {
            "title": need(WORDS, "its title"),
            "where": need(WORDS, "publisher, number, address"),
            "kind": need(WORDS, "what kind of document"),
        }
    ),
    ID,
)
_retired = Record(
    {
        "moved": Field(MapOf(ID, ID), "old id: new id"),
        "split": Field(MapOf(ListOf(ID, least=2), ID), "old id: new ids"),
    }
)

KINDS = {
    "connectors": CONNECTOR,
    "assignments": ASSIGNMENT,
    "circuits": CIRCUIT,
    "cables": _cable,
    "ports": _port,
    "leads": _lead,
    "sources": _sources,
    "questions": MapOf(kinds_asked.QUESTION, ID),
    "converters": MapOf(CONVERTER, ID),
    "feeding": MapOf(FEEDING, ID),
    "retired": _retired,
}
SINGLE = ("sources", "questions", "converters", "feeding", "retired")  # kinds of which there is one file
FOLDERS = tuple(kind for kind in KINDS if kind not in SINGLE)
