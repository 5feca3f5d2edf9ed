"""Which numbers of a circuit template decide verdicts, wherever they are written: in their place, or as a
parameter named there."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterator

from .kinds_circuits import LIMITED, PARTS
from .nodes import Map, Text
from .quantity import QuantityFault, parse

GROUND = "chassis"  # a way through it is a return, not a way out
KEYS = {
    "limits": tuple(LIMITED),
    "needs": ("volts", "full"),
    "sources": ("nominal", "maximum", "least_load"),
    "listeners": ("sensitivity", "maximum"),
}


def deciding(template: Map) -> Iterator[tuple[str, Text]]:
    """What each is, in words, and the number or parameter that stands there: ratings that hold for ever,
    needs, levels, supplies, what is drawn, and what lies between a drive and its output. How long a rating
    holds is physics; a drive of 0 V is a signal, and no number."""
    for section, keys in KEYS.items():
        for id, one in template.map(section).items():
            yield from ((f"`{key}` of '{id}' under `{section}`", one[key]) for key in keys if key in one)
    ways_out = set(in_series(template))
    for id, part in template.map("parts").items():
        kind = next(kind for kind in PARTS if kind in part)
        if kind == "sink" or (kind == "emf" and not _nothing(part[kind].text)) or id in ways_out:
            yield f"`{kind}` of '{id}' under `parts`", part[kind]


def in_series(template: Map) -> Iterator[str]:
    """Resistors on the shortest way from a drive to its output. From an end that is an output itself one only
    comes through what loads it."""
    parts = template.map("parts")
    beside = defaultdict(list)
    for id, part in parts.items():
        a, b = part["between"].texts()
        if GROUND not in (a, b):
            beside[a].append((b, id))
            beside[b].append((a, id))
    for _, source in template.map("sources").items():
        outputs = source["output"].texts()
        ends = {node: None for id in source["drive"].entries for node in parts[id]["between"].texts()}
        ways = {node: () for node in ends if node not in (*outputs, GROUND)}
        ahead = deque(ways)
        while ahead:
            here = ahead.popleft()
            for node, id in beside[here]:
                if node not in ways:
                    ways[node] = (*ways[here], id)
                    ahead.append(node)
        yield from (id for node in outputs for id in ways.get(node, ()) if "resistor" in parts[id])


def _nothing(text: str) -> bool:
    try:
        value = parse(text)
    except QuantityFault:
        return False
    return value is not None and value.low == value.high == 0
