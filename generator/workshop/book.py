"""The fault dictionary of one lead as it is published: what each fault reads, what it sounds like, and
symptoms that point back to faults."""

from __future__ import annotations

from typing import Any

from generator.catalogue.records import Catalogue, Lead

from .dictionary import Dictionary, dictionary, written
from .faulty import GOOD
from .heard import by_symptom, hear
from .likely import apart
from .safety import cautions
from .specimen import on_bench
from .tables import table
from .telling import brief, listed, said, shows

TELLING = 4  # readings told for a fault


def as_data(catalogue: Catalogue, lead: Lead) -> dict[str, Any]:
    """Everything, JSON-ready."""
    specimen = on_bench(catalogue, lead)
    known = dictionary(specimen)
    heard = hear(catalogue, lead, known.faults)
    rows = []
    for i, fault in enumerate(known.faults):
        alike = [known.faults[j].id for j in known.alike[i].nonzero()[0] if j != i]
        rows.append(
            {
                "id": fault.id,
                "says": said(specimen, fault),
                "weight": fault.weight,
                "mend": fault.mend,
                "readings": _differing(known, i),
                "alike": alike,
                "heard": [
                    {
                        "from": h.start,
                        "into": h.target,
                        "verdict": h.verdict,
                        "symptoms": list(h.symptoms),
                        "says": h.says,
                    }
                    for h in heard.get(fault.id, ())
                ],
            }
        )
    symptoms = [
        {
            "id": name,
            "says": table("symptoms")[name]["says"],
            "evidence": table("symptoms")[name]["evidence"],
            "faults": ids,
            "brief": brief(specimen, [known.faults[known.place(id)] for id in ids]),
        }
        for name, ids in by_symptom(heard, known.faults).items()
    ]
    return {
        "lead": lead.id,
        "faults": rows,
        "symptoms": symptoms,
        "weights": "from memory",
        "judged": bool(heard),
        "cautions": cautions(lead, "measuring"),
    }


def _differing(known: Dictionary, fault: int) -> list[dict[str, str]]:
    """The measurements that read otherwise than on a good lead."""
    good = known.place(GOOD)
    found = []
    for m, measurement in enumerate(known.measurements):
        here, there = known.classes[known.which[fault, m]], known.classes[known.which[good, m]]
        if apart(here, there):
            found.append({"between": written(measurement), "shows": shows(here)})
    return found


def text(lead: Lead, data: dict[str, Any]) -> str:
    """For a terminal: symptoms first, then the faults."""
    lines = [
        lead.name,
        *(f"  Take care: {caution}" for caution in data["cautions"]),
        "What you hear, and what explains it, the most common first:",
    ]
    lines += [f"  {one['says']}: {listed(one['brief'])}" for one in data["symptoms"]]
    lines += (
        []
        if data["judged"]
        else [
            (
                "  not worked out: this lead has too many contacts, or no device of the catalogue works "
                "through it"
            )
        ]
    )
    lines += ["How common a fault is, is from memory.", "What you read, where it differs from a good lead:"]
    for row in data["faults"]:
        reads = listed((f"{r['between']} {r['shows']}" for r in row["readings"]), TELLING)
        lines.append(f"  {row['id']:24} {row['says']}: {reads or 'nothing an ohmmeter shows'}")
    return "\n".join(lines)
