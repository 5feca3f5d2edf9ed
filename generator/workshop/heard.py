"""What a fault sounds like: the lead with the fault in it, judged between ordinary devices, against the
same judgement of the good lead."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from generator.catalogue.quantity import parse
from generator.catalogue.records import Catalogue, Lead, Network
from generator.engine import judge

from .faulty import GOOD, Fault, injected
from .paths import conductors
from .specimen import on_bench
from .tables import table

PAIRS = 3  # of devices a lead is tried between
MANY = 30  # contacts from which a lead is not tried: too many faults to judge while somebody waits
SILENT = ("body",)  # the catalogue knows no shells, so no circuit can tell what one does
WORKS = ("safe", "lossy")


@dataclass(frozen=True)
class Heard:
    """A fault between two devices: the verdict, the symptoms (rows of the table), and what the engine says
    of the worst of it."""

    start: str
    target: str
    verdict: str
    symptoms: tuple[str, ...]
    says: str


def with_fault(catalogue: Catalogue, lead: Lead, fault: Fault) -> Lead:
    """The record of a lead with the fault built in, supplies and all, for the engine to judge."""
    specimen = injected(on_bench(catalogue, lead, measured=False), fault)
    kept = {part.id for part in specimen.parts}
    limits = tuple(limit for limit in lead.network.limits if limit.part is None or limit.part in kept)
    return replace(lead, network=Network(specimen.parts, lead.network.couplings, limits))


def usual_pairs(catalogue: Catalogue, lead: Lead) -> list[tuple[str, str]]:
    """Up to PAIRS of (from, into) a good lead works between, the most ordinary first, no device twice as
    From."""
    named = [end.usual for end in lead.ends.values() if end.usual]
    starts = _candidates(catalogue, lead, [*named, *table("usual")["from"]["ports"]], "sources")
    targets = _candidates(catalogue, lead, [*named, *table("usual")["into"]["ports"]], "listeners")
    found = []
    for start in starts:
        judged = {target: judge(catalogue, start, [lead.id], target).verdict for target in targets[:12]}
        best = min(
            (t for t, verdict in judged.items() if verdict in WORKS),
            key=lambda t: WORKS.index(judged[t]),
            default=None,
        )
        if best:
            found.append((start, best))
        if len(found) == PAIRS:
            break
    return found


def _candidates(catalogue: Catalogue, lead: Lead, ordinary: Sequence[str], what: str) -> list[str]:
    """The ports that fit an end of the lead, the ordinary ones first."""
    shapes = {(catalogue.connectors[end.connector].bore, end.half) for end in lead.ends.values()}
    opposite = {"plug": "jack", "jack": "plug", "male": "female", "female": "male"}
    known = [name for name in dict.fromkeys([*ordinary, *catalogue.ports]) if name in catalogue.ports]
    ports = [catalogue.ports[name] for name in known]
    return [
        port.id
        for port in ports
        if getattr(port, what) and (catalogue.connectors[port.connector].bore, opposite[port.half]) in shapes
    ]


def hear(catalogue: Catalogue, lead: Lead, tried: Sequence[Fault]) -> dict[str, tuple[Heard, ...]]:
    """Fault id -> what is heard between the usual devices. Faults that do the same to the signal are judged
    once."""
    pairs, specimen = usual_pairs(catalogue, lead), on_bench(catalogue, lead)
    if len(specimen.terminals) > MANY:
        return {}
    good = {pair: judge(catalogue, pair[0], [lead.id], pair[1]).as_data() for pair in pairs}
    nets, known, found = conductors(specimen), {}, {}
    for fault in tried:
        if fault.kind in SILENT or fault.kind == GOOD:
            continue
        key = _same(fault, nets)
        if key not in known:
            record = with_fault(catalogue, lead, fault)
            changed = replace(catalogue, leads={**catalogue.leads, lead.id: record})
            known[key] = [(pair, judge(changed, pair[0], [lead.id], pair[1]).as_data()) for pair in pairs]
        found[fault.id] = tuple(_heard(fault, good[pair], judged, pair) for pair, judged in known[key])
    return found


def _same(fault: Fault, nets: Mapping[str, int]) -> tuple:
    """Equal for faults that do the same to a signal, at whichever end they are."""
    kind = "open" if fault.kind == "loose" else fault.kind
    return kind, frozenset(nets.get(at, at) for at in fault.at)


def _heard(fault: Fault, good: Mapping, judged: Mapping, pair: tuple[str, str]) -> Heard:
    before = {(f["id"], f["when"]) for f in good["findings"]}
    fresh = [f for f in judged["findings"] if f["severity"] != "note" and (f["id"], f["when"]) not in before]
    symptoms = tuple(dict.fromkeys(_symptoms(fault, [f["id"] for f in fresh], _quieter(good, judged))))
    return Heard(*pair, judged["verdict"], symptoms or ("nothing",), fresh[0]["says"] if fresh else "")


def _quieter(good: Mapping, judged: Mapping) -> float:
    """How much level is lost against the good lead, dB; 0 where it is not known."""
    then, now = (
        {f["id"]: f["value"] for f in one["figures"]}.get("room-at-the-top") for one in (good, judged)
    )
    return 0.0 if then is None or now is None else then - now


def _symptoms(fault: Fault, findings: Sequence[str], quieter: float) -> Iterator[str]:
    for name, row in table("symptoms").items():
        bounds = parse(row["quieter"]) if "quieter" in row else None
        if (
            set(findings) & set(row.get("findings", ()))
            or fault.kind in row.get("kinds", ())
            or (bounds and bounds.low <= quieter < bounds.high)
        ):
            yield name


def by_symptom(heard: Mapping[str, Sequence[Heard]], tried: Sequence[Fault]) -> dict[str, list[str]]:
    """Symptom -> the faults that explain it, the most common first."""
    weight = {fault.id: fault.weight for fault in tried}
    found: dict[str, list[str]] = {}
    for name in table("symptoms"):
        faults = [id for id, cases in heard.items() if any(name in case.symptoms for case in cases)]
        if faults:
            found[name] = sorted(faults, key=lambda id: (-weight[id], id))
    return found
