"""The guided search as it is told to a person: what is likely now, where to put the probes next, what does
not fit."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from generator.catalogue.records import Catalogue, Lead

from . import asked, siblings
from .beyond import further, told
from .dictionary import Dictionary, dictionary, written
from .faulty import Fault
from .likely import Answer, likelihood
from .search import Ending, Search
from .specimen import Specimen, on_bench
from .tables import table
from .telling import brief, grouped, listed, said, shows

LIKELY, MANY = 5, 60  # candidates told, and looked at for it


def guided(
    catalogue: Catalogue, lead: Lead, typed: Sequence[str], among: bool = False
) -> tuple[dict[str, Any], str]:
    """Data and text after the readings typed so far; `among` asks which of the look-alikes it is instead of
    what is wrong with it."""
    specimen = on_bench(catalogue, lead)
    known = siblings.apart(catalogue, siblings.alike(catalogue, lead)) if among else dictionary(specimen)
    search, read = Search(known), asked.readings(known, typed)
    likely = search.posterior(read)
    following = search.best(likely, read)
    ending = search.ending(likely, bool(read), following)
    named = [known.faults[i] for i in ending.named]
    data = {
        "lead": lead.id,
        "state": ending.state,
        "sure": round(ending.sure, 3),
        "named": [_fault(specimen, fault) for fault in named],
        "brief": brief(specimen, named),
        "likely": _likely(specimen, known, likely),
        "next": None if ending.state == "found" else _next(known, likely, following),
        "misfits": _misfits(known, read, ending),
        "further": None if among or ending.state != "found" else _further(specimen, named),
    }
    return data, _text(lead, data, bool(read))


def _fault(specimen: Specimen, fault: Fault) -> dict[str, str]:
    return {"id": fault.id, "says": said(specimen, fault), "mend": fault.mend}


def _likely(specimen: Specimen, known: Dictionary, likely: np.ndarray) -> list[dict[str, Any]]:
    """The likeliest, what is the same at either end together."""
    order = sorted(range(len(known.faults)), key=lambda i: (-likely[i], known.faults[i].id))
    place = {known.faults[i].id: float(likely[i]) for i in order}
    found = [
        {
            "brief": words,
            "faults": [fault.id for fault in alike],
            "likelihood": round(sum(place[fault.id] for fault in alike), 4),
        }
        for words, alike in grouped(specimen, [known.faults[i] for i in order[:MANY]])
    ]
    return sorted(found, key=lambda one: -one["likelihood"])[:LIKELY]


def _next(known: Dictionary, likely: np.ndarray, number: int | None) -> dict[str, Any] | None:
    """The measurement, and what each answer would mean."""
    if number is None:
        return None
    means: dict[str, float] = {}
    for i, share in enumerate(likely):
        window = known.classes[known.which[i, number]]
        means[shows(window)] = means.get(shows(window), 0.0) + float(share)
    answers = sorted(means, key=lambda words: -means[words])
    return {
        "between": written(known.measurements[number]),
        "probes": asked.joined(known.measurements[number]),
        "expected": [
            {"shows": words, "likelihood": round(means[words], 3)} for words in answers if means[words] > 5e-4
        ],
    }


def _misfits(known: Dictionary, read: Sequence[tuple[int, Answer]], ending: Ending) -> list[str]:
    """Readings that hardly fit what is named now."""
    if not ending.named or ending.state == "measuring":
        return []
    top = ending.named[0]
    return [
        f"{written(known.measurements[m])}={asked.told(answer)}"
        for m, answer in read
        if likelihood(answer, known.classes[known.which[top, m]])
        < float(table("search")["against"]["chance"])
    ]


def _further(specimen: Specimen, named: Sequence[Fault]) -> dict[str, Any] | None:
    found = further(specimen, named)
    if found is None:
        return None
    return {
        "between": f"{found.a}-{found.b}",
        "shows": [{"id": fault.id, "farad": list(span), "says": told(span)} for fault, span in found.shows],
    }


def _text(lead: Lead, data: dict[str, Any], begun: bool) -> str:
    names = data["brief"]
    lines = [lead.name]
    if data["state"] == "found":
        lines += [f"  Found ({data['sure']:.0%}): {listed(names)}."]
        lines += [f"  No ohmmeter tells these {len(names)} apart."] if len(names) > 1 else []
        lines += [f"  {mend}" for mend in dict.fromkeys(one["mend"] for one in data["named"])]
    elif data["state"] == "cannot tell":
        lines += [f"  This cannot be told any further with these readings. Still possible: {listed(names)}."]
    elif begun:
        word = "Most likely" if data["state"] == "named" else "Likely so far"
        told = (f"{one['brief']} ({one['likelihood']:.0%})" for one in data["likely"])
        lines.append(f"  {word}: {listed(told)}.")
    lines += [f"  {misfit} does not fit what you read before. Read it again." for misfit in data["misfits"]]
    if data["next"]:
        proof = "One more reading proves it" if data["state"] == "named" else "Next"
        lines += [
            f"  {proof}: {data['next']['probes']}.",
            *(f"    {e['shows']} ({e['likelihood']:.0%})" for e in data["next"]["expected"]),
        ]
    if data["further"]:
        lines += [
            f"  A capacitance range tells more: {data['further']['between']}, far ends open.",
            *(f"    {one['says']}: {one['id']}" for one in data["further"]["shows"]),
        ]
    return "\n".join(lines)
