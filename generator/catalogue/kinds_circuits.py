"""The keys of a circuit's file, declared, with those of the parts that leads have too."""

from __future__ import annotations

from . import kinds_asked
from .kinds_shared import ID, PARAMETER, SEVERAL, SIGNALS, VALUE, WORDS, YES_NO, evidence_keys, file_of, need
from .scalars import Amount, Choice, Name, Nothing, Number
from .shapes import Field, ListOf, MapOf, Record

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


def network_keys(parameters: bool, node: Name) -> dict[str, Field]:
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
            "supply": Field(ID, "the supply an emf belongs to"),
            "skew": Field(Choice(("up", "down")), "which way it may be off within `match`"),
            "match": Field(amount("1"), "how well it is matched to its partner, in %"),
            "knee": Field(amount("V", positive=True), "the voltage below which a sink draws less"),
            "series": Field(amount("ohm", positive=True), "the resistance of a clamp that conducts"),
            "coil": Field(WORDS, "the winding or ribbon that direct current must not cross"),
        },
        one_of=(tuple(PARTS),),
    )
    limit = Record(
        {
            "where": need(WORDS, "which part it is, in words"),
            "part": Field(ID, "the part it holds for"),
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
            **evidence_keys(),
        },
        one_of=(tuple(LIMITED), ("part", "between")),
        evidence=True,
    )
    coupling = Record(
        {
            "parts": need(ListOf(ID, least=2, most=2), "the two inductors"),
            "k": need(Number(0, 1, rule="bad-coupling"), "the coupling coefficient"),
        }
    )
    return {
        "parts": Field(MapOf(part, ID), "two-terminal parts by id"),
        "couplings": Field(MapOf(coupling, ID), "inductors on one core"),
        "limits": Field(MapOf(limit, ID), "what a part stands"),
    }


def _levels(*keys: str) -> dict[str, Field]:
    return {key: Field(Amount("V", unknown=True, parameter=True), f"{key} level") for key in keys}


_pair = ListOf(ID, least=2, most=2)
CIRCUIT = file_of(
    "circuits",
    {
        "roles": need(ListOf(ID, least=1), "the nodes that lead to contacts"),
        "parameters": Field(MapOf(PARAMETER, ID), "values a port may replace"),
        **network_keys(parameters=True, node=ID),
        "sources": Field(
            MapOf(
                Record(
                    {
                        "kind": need(Choice(SIGNALS), "what kind of signal"),
                        "form": Field(WORDS, "which of its kind, in words, where not all of it go together"),
                        "drive": need(
                            MapOf(Number(), ID, least=1),
                            "emf or sink: its share of one volt of open-circuit level",
                        ),
                        "output": need(_pair, "the nodes it drives, the first is hot"),
                        **_levels("nominal", "maximum"),
                        "least_load": Field(
                            Amount("ohm", positive=True, unknown=True, parameter=True),
                            "the least load it is made for",
                        ),
                        "supply": Field(ID, "the switch that turns it on"),
                        "balanced": Field(YES_NO, "is it a balanced output"),
                    }
                ),
                ID,
            ),
            "channels it drives",
        ),
        "listeners": Field(
            MapOf(
                Record(
                    {
                        "kind": need(Choice(SIGNALS), "what kind of signal"),
                        "form": Field(SEVERAL, "which of its kind it understands: the sources' own words"),
                        "between": need(_pair, "the nodes it hears, the first is hot"),
                        **_levels("sensitivity", "maximum"),
                        "balanced": Field(YES_NO, "is it a balanced input"),
                    }
                ),
                ID,
            ),
            "channels it hears",
        ),
        "supplies": Field(
            MapOf(
                Record(
                    {
                        "name": need(WORDS, "what the switch is called"),
                        "style": need(
                            Choice(("pair", "across", "single", "drive")),
                            "alike on both legs, between the legs, single, or the switch of a source",
                        ),
                        "states": Field(ListOf(WORDS, least=2), "the switch positions, on first"),
                    }
                ),
                ID,
            ),
            "supplies that can be switched",
        ),
        "needs": Field(
            MapOf(
                Record(
                    {
                        "where": need(WORDS, "what needs it, in words"),
                        "between": need(_pair, "the nodes it is powered from"),
                        "volts": need(Amount("V", positive=True, parameter=True), "the least it works with"),
                        "full": Field(
                            Amount("V", positive=True, parameter=True), "the least at which it loses nothing"
                        ),
                        **evidence_keys(),
                    },
                    evidence=True,
                ),
                ID,
            ),
            "the volts it must find",
        ),
        **kinds_asked.fields(VALUE),
    },
)
