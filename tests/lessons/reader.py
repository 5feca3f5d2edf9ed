"""A reader that shares no code with what it tests: right answers derived again from the YAML as it is
written, and from the ledger's text."""

from __future__ import annotations

import re
from functools import cache
from math import log10, sqrt
from pathlib import Path

import yaml

ROOT = Path(__file__).parents[2]
PINOUTS, TABLES = ROOT / "pinouts", ROOT / "generator/lessons"
RANKS = ["safe", "lossy", "no signal", "dangerous", "does not fit"]
OPPOSITE = {"plug": "jack", "jack": "plug", "male": "female", "female": "male"}
CLOSE = 1e-2


@cache
def raw(folder: str, id: str) -> dict:
    """A record with what it takes from the record it is the same as: maps merge one level deep."""
    own = yaml.load((PINOUTS / folder / f"{id}.yaml").read_text("utf-8"), Loader=yaml.BaseLoader)
    if "same_as" not in own:
        return own
    merged = dict(raw(folder, own["same_as"]))
    for key, value in own.items():
        merged[key] = (
            {**merged[key], **value}
            if isinstance(value, dict) and isinstance(merged.get(key), dict)
            else value
        )
    return merged


@cache
def lines() -> dict[str, list[str]]:
    """`FROM,LEAD,INTO` -> the fields of its line."""
    found = {}
    for path in (PINOUTS / "verdicts").glob("*.txt"):
        for line in path.read_text("utf-8").splitlines():
            if not line.startswith("#"):
                lead, into, *fields = line.split("\t")
                found[f"{path.stem},{lead},{into}"] = fields
    return found


def findings(fields: list[str]) -> tuple[list[str], set[str]]:
    """(those that decided, all)."""
    deciding, _, also = fields[1].partition("|")
    first = [name for name in deciding.split() if name != "-"]
    return first, {*first, *also.split()}


@cache
def written(name: str):
    return yaml.load((TABLES / f"{name}.yaml").read_text("utf-8"), Loader=yaml.BaseLoader)


@cache
def symptoms() -> dict[tuple[str, str], list[str]]:
    rows = (
        line.split("\t")
        for line in (PINOUTS / "workshop/symptoms.txt").read_text("utf-8").splitlines()
        if not line.startswith("#")
    )
    return {(lead, symptom): ids.split() for lead, symptom, ids in rows}


def goes_in(connector: str, half: str, other: str) -> bool:
    """Does a plug of the other connector go into this receptacle, by shape, bore and `takes`?"""
    one, two = raw("connectors", connector), raw("connectors", other)
    taken = one.get("takes", [])
    return (
        OPPOSITE[half] in two
        and one["shape"] == two["shape"]
        and (
            one.get("bore", connector) == two.get("bore", other)
            or other in ([taken] if isinstance(taken, str) else taken)
        )
    )


def beeps(lead: str, fault: str = "") -> dict[str, frozenset[str]]:
    """What a beep finds from every contact at which a conductor of a plain lead ends, with one fault put
    in at its second end."""
    kind, _, at = fault.partition(":")
    places, wires = at.split("-"), []
    for nodes in raw("leads", lead).get("joins", {}).values():
        nodes = list(nodes["nodes"] if isinstance(nodes, dict) else nodes)
        if kind == "crossed":
            nodes = [{places[0]: places[1], places[1]: places[0]}.get(node, node) for node in nodes]
        if kind == "open":
            nodes = [node for node in nodes if node != places[0]]
        wires.append(set(nodes))
    if kind == "short":
        wires.append(set(places))
    merged: list[set[str]] = []
    for wire in wires:
        touching = [other for other in merged if other & wire]
        merged = [other for other in merged if not other & wire] + [wire.union(*touching)]
    return {node: frozenset(wire - {node}) for wire in merged for node in wire}


def words(role: str) -> str:
    return role.split(".")[-1].replace("-", " ")


def number(text: str) -> tuple[float, str] | None:
    """`278 mA / 250 mA` -> (0.278, "A")."""
    found = re.match(r"(−?[\d.]+) ([kmµ]?)(dB|V|A|W)\b", text)
    return found and (
        float(found[1].replace("−", "-")) * {"": 1, "k": 1e3, "m": 1e-3, "µ": 1e-6}[found[2]],
        found[3],
    )


# --- One check for each kind: what is wrong with a question, or nothing ---


def contact(one) -> str:
    id, right = one.subject.split(",")
    carries = raw("assignments", id)["carries"]
    asked = [name for name, role in carries.items() if one.asks == f"Which contact carries {words(role)}?"]
    return "" if asked == [right] == list(one.answer) else f"{asked} carry it"


def role(one) -> str:
    id, place = one.subject.split(",")
    right = words(raw("assignments", id)["carries"][place])
    shown = [choice.text for choice in one.choices]
    return "" if one.right() == right and shown.count(right) == 1 else f"it carries {right}"


def mistaken(one) -> str:
    id, other = one.subject.split(",")
    listed = raw("assignments", id)["mistaken_for"]
    strange = [choice.text for choice in one.choices if choice.text not in listed.values()]
    return "" if one.right() == listed[other] and not strange else f"not listed: {strange}"


def name(one) -> str:
    id = one.subject.split(",")[0]
    looks = raw("connectors", id).get("looks")
    alike = [
        choice.id
        for choice in one.choices
        if choice.id != id and raw("connectors", choice.id).get("looks") == looks
    ]
    return (
        ""
        if one.answer == (id,) and one.right() == raw("connectors", id)["name"] and not alike
        else f"looks alike: {alike}"
    )


def fits(one) -> str:
    connector, half = one.subject.split(",")
    going = [choice.id for choice in one.choices if goes_in(connector, half, choice.id)]
    return "" if going == list(one.answer) else f"{going} go in"


def verdict(one) -> str:
    fields = lines()[one.subject]
    return "" if one.answer == (fields[0],) and len(fields) == 4 else f"the ledger says {fields[0]}"


def cause(one) -> str:
    first, every = findings(lines()[one.subject])
    wrong = {choice.id for choice in one.choices} - set(one.answer)
    listed = set(written("findings")[first[0]]["mixed"])
    expected = {"lost": "lossy", "danger": "dangerous", "silence": "no signal"}[one.kind]
    if lines()[one.subject][0] != expected or one.answer != (first[0],):
        return f"{first[0]} decides"
    return (
        ""
        if not wrong & every and wrong <= listed
        else f"also right, or no listed mistake: {wrong & every or wrong - listed}"
    )


def lead(one) -> str:
    start, into = one.subject.split(",")
    ranks = {choice.id: RANKS.index(lines()[f"{start},{choice.id},{into}"][0]) for choice in one.choices}
    best = [id for id, rank in ranks.items() if rank == min(ranks.values())]
    every = [
        RANKS.index(fields[0])
        for key, fields in lines().items()
        if key.startswith(f"{start},") and key.endswith(f",{into}") and len(fields) == 4
    ]
    return "" if best == list(one.answer) and min(every) == min(ranks.values()) < 2 else f"{best} are best"


def input_(one) -> str:
    start, through = one.subject.split(",")
    found = {choice.id: lines()[f"{start},{through},{choice.id}"][0] for choice in one.choices}
    good = [id for id, ends in found.items() if ends in ("safe", "lossy")]
    return "" if good == list(one.answer) and found[one.answer[0]] == "safe" else f"{good} work"


def switch(one) -> str:
    fields = lines()[one.subject]
    if one.answer != ("off-on",):
        return position(one, fields)
    told = len(fields) == 6 and re.match(r"Plug it with (.+) off, wait a moment, then \1 on:", fields[5])
    return (
        ""
        if told
        and fields[0] == "dangerous"
        and f"with {told[1]} on" in one.asks
        and one.answer == ("off-on",)
        else f"the ledger offers {fields[4:]}"
    )


@cache
def templates(port: str) -> list[dict]:
    """The circuit templates of a port, as they are written."""
    return [
        raw("circuits", use["use"]) if "use" in use else use for use in raw("ports", port)["circuit"].values()
    ]


def position(one, fields) -> str:
    """One supply with a switch, wire alone between: on where a need hangs on it and it works, either where
    nothing needs any and the worst is safe."""
    start, lead, into = one.subject.split(",")
    every = [template for port in (start, into) for template in templates(port)]
    supplies = {
        (name, supply["name"]) for template in every for name, supply in template.get("supplies", {}).items()
    }
    wire = lead == "-" or not raw("leads", lead).get("parts")
    expected = "on" if any(template.get("needs") for template in every) else "either"
    also = findings(fields)[1]
    good = len(fields) < 5 and (
        fields[0] in ("safe", "lossy") and "not-powered" in also
        if expected == "on"
        else fields[0] == "safe" and not also
    )
    return (
        ""
        if wire and good and len(supplies) == 1 and one.answer == (expected,)
        else f"{expected} of {supplies}, {fields}"
    )


def order(one) -> str:
    procedure, places = one.subject.split(",")
    steps = [step["do"] for step in written("orders")[procedure]["steps"]]
    expected = [steps[int(place) - 1] for place in places.split("-")]
    texts = {choice.id: choice.text for choice in one.choices}
    return (
        ""
        if [texts[id] for id in one.answer] == expected and list(texts.values()) != expected
        else f"the order is {expected}"
    )


def fault(one) -> str:
    id, put_in = one.subject.split(",")
    shown = {
        node.removesuffix(" beeps to"): frozenset() if other == "nothing" else frozenset(other.split(", "))
        for node, other in one.given
        if node.endswith(" beeps to")
    }
    explains = [
        choice.id
        for choice in one.choices
        if {node: beeps(id, choice.id).get(node, frozenset()) for node in shown} == shown
    ]
    return "" if explains == [put_in] == list(one.answer) else f"{explains} explain the beeps"


def sound(one) -> str:
    id, symptom = one.subject.split(",")
    making = [choice.id for choice in one.choices if choice.id in symptoms()[id, symptom]]
    return "" if making == list(one.answer) else f"{making} sound like it"


def meter(one) -> str:
    id, pair = one.subject.split(",")
    shown, parts = one.right(), raw("leads", id).get("parts")
    ends = [
        node
        for node in beeps(id)
        if pair.startswith(f"{node}-") and pair.removeprefix(f"{node}-") in beeps(id)
    ]
    joined = any(pair.removeprefix(f"{node}-") in beeps(id)[node] for node in ends)
    if joined != (shown == "A wire: it beeps") and (joined or not parts):
        return f"joined: {joined}"
    return (
        "" if parts or shown in ("A wire: it beeps", "No reading") else "nothing in it has such a resistance"
    )


def estimate(one) -> str:
    about, _, amount = one.subject.partition(",")
    sums = {
        "phantom-left": lambda x: (48 - x / 1000 * 6810 / 2, "V"),
        "times-of-db": lambda x: (10 ** (x / 20), "times"),
        "volts-of-dbu": lambda x: (sqrt(0.6) * 10 ** (x / 20), "V"),
    }
    size, unit = sums[about](float(amount)) if about in sums else number(lines()[one.subject][2])
    near = (
        one.target.unit == unit
        and abs(one.target.value - size) <= CLOSE * max(abs(size), 1e-3)
        and 0 < one.target.near
    )
    return "" if near and (not size or log10(one.target.near / abs(size)) < 1.5) else f"it is {size} {unit}"


CHECKS = {
    "contact": contact,
    "role": role,
    "mistaken": mistaken,
    "name": name,
    "fits": fits,
    "verdict": verdict,
    "lost": cause,
    "danger": cause,
    "silence": cause,
    "lead": lead,
    "input": input_,
    "switch": switch,
    "order": order,
    "fault": fault,
    "sound": sound,
    "meter": meter,
    "estimate": estimate,
}
