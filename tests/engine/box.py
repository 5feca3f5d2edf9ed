"""Devices drawn on the back of an envelope: an XLR-3 outlet and inlet with nothing in them but the parts a
test names, and a lead as plain."""

from dataclasses import replace

from bench import part

from generator.catalogue.records import (
    Catalogue,
    Join,
    Lead,
    Limit,
    Listener,
    Network,
    Part,
    Port,
    Source,
    Supply,
)
from generator.engine.assemble import Assembly, assemble, ways
from generator.engine.explain import explain
from generator.engine.judge import judge, readings_of
from generator.engine.readings import Reading
from generator.engine.verdict import Verdict
from generator.engine.working import Working

# whose connectors these borrow
OUTLET, INLET, LEAD = "mixer-line-out-xlr", "mixer-line-in-xlr", "xlr-f-to-xlr-m-3m"
BOND, DRIVE = "bond wire screen chassis", "drive emf stage chassis 0 V"  # what makes an unbalanced output


def device(
    catalogue: Catalogue,
    like: str,
    *lines: str | Part,
    limits=(),
    supply: str | None = None,
    earthed="no",
    **given,
) -> Port:
    """A device with contacts 1, 2, 3 on screen, hot and cold; `lines` are its parts, written as for the bench
    where nothing is unusual about them. Emfs of direct current are switched by `supply`."""
    known = {"sources": (), "listeners": (), "needs": (), "circuits": (), "asks": ()} | given
    known["supplies"] = (Supply(supply, supply, ("on", "off"), "single"),) if supply else ()
    made = [part(line) if isinstance(line, str) else line for line in lines]
    made = [replace(p, supply=supply) if p.kind == "emf" and p.value.nominal else p for p in made]
    return replace(
        catalogue.ports[like], earthed=earthed, network=Network(tuple(made), (), tuple(limits)), **known
    )


def outlet(catalogue: Catalogue, *lines: str | Part, **given) -> Port:
    return device(catalogue, OUTLET, *lines, **given)


def inlet(catalogue: Catalogue, *lines: str | Part, **given) -> Port:
    return device(catalogue, INLET, *lines, **given)


def lead(catalogue: Catalogue, *joined: str, tails: str = "b", labels: tuple[str, ...] = ()) -> Lead:
    """A lead without length that joins these contacts straight through to each of its tails. `23` joins
    contact 2 of its near end to 3 of the first tail, `23c` to that of tail c. Tails with labels are not
    alike: each usually goes where it says, which no catalogue here knows."""
    like = catalogue.leads[LEAD]
    wires = [
        (f"a.{way[0]}", f"{tail}.{way[1:2] or way}")
        for way in joined
        for tail in way[2:] or (tails if len(way) == 1 else tails[0])
    ]
    ends = {"a": replace(like.ends["a"], usual=None)} | {
        tail: replace(like.ends["b"], id=tail, usual=None) for tail in tails
    }
    ends |= {tail: replace(ends[tail], label=label, usual=label) for tail, label in zip(tails, labels)}
    network = Network(tuple(Part(f"wire{i}", "wire", *pair) for i, pair in enumerate(wires)))
    joins = tuple(Join(f"wire{i}", pair, pair[0] == "a.1") for i, pair in enumerate(wires))
    return replace(like, ends=ends, joins=joins, network=network, parts=(), length=None, cable=None)


def sends(channel="main", kind="line", output=("hot", "screen"), emf="drive", **levels) -> Source:
    """A source; its levels are V rms."""
    known = {"nominal": None, "maximum": None, "least_load": None} | levels
    return Source(channel, channel, kind, {emf: 1.0}, output, balanced=False, **known)


def hears(channel="main", kind="line", between=("hot", "screen"), **levels) -> Listener:
    known = {"sensitivity": None, "maximum": None} | levels
    return Listener(channel, channel, kind, between, balanced=False, **known)


def stands(
    catalogue: Catalogue,
    quantity: str,
    of: str | tuple[str, str],
    settled: float | None,
    momentary: float | None = None,
    **more,
) -> Limit:
    """What a part, or whatever lies between two nodes, is rated for."""
    one, between = (of, None) if isinstance(of, str) else (None, of)
    return Limit(
        f"{quantity}-rating",
        "part",
        quantity,
        one,
        between,
        settled,
        momentary,
        catalogue.ports[OUTLET].evidence,
        **more,
    )


def assembled(catalogue: Catalogue, start: Port, target: Port, *leads: Lead) -> Assembly:
    """The first way to plug them."""
    return assemble(catalogue, start, leads, target, ways(catalogue, start, leads, target)[0])


def read(catalogue: Catalogue, start: Port, target: Port, *leads: Lead) -> list[Reading]:
    return list(readings_of(assembled(catalogue, start, target, *leads)))


def just(catalogue: Catalogue, start: Port, target: Port, *leads: Lead) -> tuple:
    """A catalogue of these alone, and how to ask about them."""
    own = replace(catalogue, ports={start.id: start, target.id: target}, leads={one.id: one for one in leads})
    return own, start.id, tuple(one.id for one in leads), target.id


def judged(catalogue: Catalogue, *connection: Port | Lead) -> Verdict:
    return judge(*just(catalogue, *connection))


def explained(catalogue: Catalogue, *connection: Port | Lead, finding: str | None = None) -> Working:
    return explain(*just(catalogue, *connection), finding)
