"""Two devices written down part by part and plugged together: circuits to work out on paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from types import SimpleNamespace

from bench import part
from wiring import Wiring, wiring

from generator.catalogue.records import Catalogue, Evidence, Limit, Network, Port, Source, Supply

MEMORY = Evidence("from memory")


def rated(
    name: str,
    quantity: str,
    of: str,
    settled: float,
    momentary: float | None = None,
    seconds: float | None = None,
) -> Limit:
    """A limit of a part (`R1`) or between two nodes (`a b`); like the catalogue's, for moments as for ever
    where nothing else is said."""
    nodes = tuple(of.split())
    about = (None, nodes) if len(nodes) == 2 else (of, None)
    made = Limit(name, name, quantity, *about, settled, momentary or seconds or settled, MEMORY)
    object.__setattr__(made, "seconds", settled if seconds is None else seconds)
    return made


def device(
    catalogue: Catalogue,
    *lines: str,
    limits: Sequence[Limit] = (),
    supplies: Sequence[str] = (),
    sources: Sequence[Source] = (),
    earthed: str = "maybe",
) -> Port:
    """A device of some parts. `E1 emf a b 48 V by phantom` belongs to the supply `phantom`."""
    parts = []
    for line in lines:
        line, _, supply = line.partition(" by ")
        parts.append(replace(part(line), supply=supply or None))
    anything = next(iter(catalogue.ports.values()))
    switches = tuple(Supply(name, name, ("on", "off"), "single") for name in supplies)
    return replace(
        anything,
        network=Network(tuple(parts), (), tuple(limits)),
        sources=tuple(sources),
        listeners=(),
        needs=(),
        earthed=earthed,
        supplies=switches,
    )


def source(part_id: str, volts: float, kind: str = "line", supply: str | None = None) -> Source:
    """A source of one emf, with its loudest level in V rms."""
    made = Source("main", "main", kind, {part_id: 1.0}, ("x", "y"), volts, volts, None, False)
    if supply:
        object.__setattr__(made, "supply", supply)
    return made


def plugged(start: Port, target: Port, home: str, *travel: str) -> Wiring:
    """The two devices with contacts home, and on the way: `hot-hot screen-screen`, outlet's node first."""

    def state(text: str) -> frozenset:
        return frozenset(tuple(pair.split("-")) for pair in text.split())

    nodes = [
        {pair[side]: f"{place}/{pair[side]}" for text in (home, *travel) for pair in state(text)}
        for side, place in enumerate(("from", "into"))
    ]
    mating = SimpleNamespace(home=(state(home),), travel=tuple(map(state, travel)))
    return wiring({"from": start, "into": target}, [SimpleNamespace(nodes=nodes, mating=mating)], 1)
