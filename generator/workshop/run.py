"""A dead, humming or crackling run: which swap or removal to try next, by what it is expected to tell for
the seconds it takes.

A try replaces some of the run by what is known to be good. If what was wrong is gone, it was in there; if
it stays, it is elsewhere.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import log2
from typing import Any

from generator.catalogue.records import Catalogue
from generator.engine import judge

from .safety import Misuse
from .tables import table

SURE, WORTH = 0.9, 0.005  # likelihood that ends the search; bit below which a try tells nothing
SYMPTOMS = tuple(name for name in table("run") if name not in ("costs", "answers"))


@dataclass(frozen=True)
class Try:
    """Something to do: `covers` are the elements it takes out of question, `seconds` what it costs."""

    id: str
    says: str
    covers: frozenset[str]
    seconds: float


@dataclass(frozen=True)
class Run:
    """What can be at fault (element -> how likely, sum 1), what it is called, and what can be tried."""

    likely: Mapping[str, float]
    names: Mapping[str, str]
    tries: tuple[Try, ...]


def run(catalogue: Catalogue, start: str, through: Sequence[str], target: str, symptom: str) -> Run:
    """A run of devices and leads with a symptom. Every lead is as likely as the next."""
    row = table("run")[symptom]
    names = {
        "settings": "a switch or a setting",
        "source": f"the {catalogue.ports[start].name}",
        **{f"lead{i}": f"lead {i}, {catalogue.leads[lead].name}" for i, lead in enumerate(through, 1)},
        "input": f"the {catalogue.ports[target].name}",
    }
    weights = {
        element: float(row["weights"]["lead" if element.startswith("lead") else element]) for element in names
    }
    total = sum(weights.values())
    return Run(
        {element: weight / total for element, weight in weights.items()},
        names,
        tuple(_tries(names, row["look"])),
    )


def _tries(names: Mapping[str, str], look: str):
    leads = [element for element in names if element.startswith("lead")]
    seconds = {
        name: float(text.split()[0]) for name, text in table("run")["costs"].items() if text.endswith(" s")
    }
    yield Try("look", look, frozenset({"settings"}), seconds["settings"])
    for lead in leads:
        yield Try(
            f"swap-{lead}",
            f"Swap {names[lead]} for one you know is good.",
            frozenset({lead}),
            seconds["swap-lead"],
        )
    for cut in range(2, len(leads) + 1):
        for part, side in ((leads[:cut], "first"), (leads[-cut:], "last")):
            if cut == len(leads) and side == "last":
                continue
            words = "all leads" if cut == len(leads) else f"the {side} {cut} leads"
            yield Try(
                f"bypass-{part[0]}-{part[-1]}",
                f"Take {words} out and put one you know is good in their place.",
                frozenset(part),
                seconds["bypass"],
            )
    yield Try(
        "swap-source",
        f"Put another source in the place of {names['source']}.",
        frozenset({"source"}),
        seconds["swap-source"],
    )
    yield Try(
        "swap-input", f"Use another input than {names['input']}.", frozenset({"input"}), seconds["swap-input"]
    )


def after(known: Run, tried: Sequence[tuple[str, bool]]) -> dict[str, float]:
    """Element -> how likely, after tries (id, gone). Raises Misuse for a try that is none of this run's."""
    wrong, tries, likely = (
        float(table("run")["answers"]["chance"]),
        {one.id: one for one in known.tries},
        dict(known.likely),
    )
    for id, gone in tried:
        if id not in tries:
            raise Misuse(f"'{id}' is nothing to try on this run; there are {', '.join(tries)}.")
        likely = {
            element: share * (1 - wrong if (element in tries[id].covers) == gone else wrong)
            for element, share in likely.items()
        }
        total = sum(likely.values())
        likely = {element: share / total for element, share in likely.items()}
    return likely


def gain(likely: Mapping[str, float], one: Try) -> float:
    """The bits a try is expected to tell."""
    wrong = float(table("run")["answers"]["chance"])
    inside = sum(share for element, share in likely.items() if element in one.covers)
    gone = inside * (1 - wrong) + (1 - inside) * wrong
    return _entropy(gone) - _entropy(wrong)


def _entropy(share: float) -> float:
    return -sum(p * log2(p) for p in (share, 1 - share) if p > 0)


def expected_cost(order: Sequence[tuple[float, float]]) -> float:
    """What repairing in this order costs on average: (likelihood, cost) of each, the fault being exactly
    one of them."""
    spent = total = 0.0
    for share, cost in order:
        spent += cost
        total += share * spent
    return total


def by_ratio(repairs: Mapping[str, tuple[float, float]]) -> list[str]:
    """The best order of repairs that are tried one by one: by falling likelihood over cost."""
    return sorted(repairs, key=lambda name: (-repairs[name][0] / repairs[name][1], name))


def traced(
    catalogue: Catalogue, start: str, through: Sequence[str], target: str, symptom: str, typed: Sequence[str]
) -> dict[str, Any]:
    """Where the search stands after the tries typed (`swap-lead1=stays`), the next try, and what every try
    would tell."""
    if symptom not in SYMPTOMS:
        raise Misuse(f"'{symptom}' is not a symptom of a run; there are {', '.join(SYMPTOMS)}.")
    known, judged = (
        run(catalogue, start, through, target, symptom),
        judge(catalogue, start, through, target).as_data(),
    )
    done = [_tried(text) for text in typed]
    likely = after(known, done)
    used = {id for id, _ in done}
    offered = sorted(
        ((gain(likely, one) / one.seconds, one) for one in known.tries if one.id not in used),
        key=lambda pair: (-pair[0], pair[1].id),
    )
    offered = [one for worth, one in offered if worth * one.seconds >= WORTH]
    top = max(likely, key=lambda element: (likely[element], element))
    found = likely[top] >= SURE
    sound = judged["verdict"] in ("safe", "lossy")
    return {
        "from": start,
        "through": list(through),
        "into": target,
        "symptom": symptom,
        "sound": sound,
        "says": (
            ""
            if sound
            else f"With nothing broken this run ends {judged['verdict']}: {judged['findings'][0]['says']}"
        ),
        "likely": [
            {"element": element, "says": known.names[element], "likelihood": round(share, 3)}
            for element, share in sorted(likely.items(), key=lambda pair: -pair[1])
        ],
        "state": "found" if found else "measuring" if offered else "cannot tell",
        "lead": through[int(top[4:]) - 1] if found and top.startswith("lead") else None,
        "next": None if found or not offered else _as_data(likely, offered[0]),
        "tries": [_as_data(likely, one) for one in offered],
    }


def _as_data(likely: Mapping[str, float], one: Try) -> dict[str, Any]:
    bits = gain(likely, one)
    return {
        "id": one.id,
        "says": one.says,
        "seconds": one.seconds,
        "bits": round(bits, 3),
        "bits_a_minute": round(60 * bits / one.seconds, 2),
    }


def _tried(text: str) -> tuple[str, bool]:
    id, _, ended = text.partition("=")
    if ended not in ("gone", "stays"):
        raise Misuse(
            f"'{text}' does not say how it ended; write {id or 'look'}=gone or {id or 'look'}=stays."
        )
    return id, ended == "gone"


def text(data: dict[str, Any]) -> str:
    """For a terminal."""
    lines = [
        (
            f"{' -> '.join((data['from'], *data['through'], data['into']))}: "
            f"{table('run')[data['symptom']]['says']}"
        )
    ]
    lines += [f"  {data['says']}"] if data["says"] else []
    top = data["likely"][0]
    if data["state"] == "found":
        lines.append(f"  Found ({top['likelihood']:.0%}): {top['says']}.")
        lines += [f"  Now with a meter: python -m generator diagnose {data['lead']}"] if data["lead"] else []
    elif data["state"] == "cannot tell":
        lines.append("  No swap tells more. Look at two faults at once, or at what lies outside this run.")
    else:
        lines.append(f"  Next ({data['next']['seconds']:g} s): {data['next']['says']}")
        lines += [
            f"    {one['id']:20} {one['bits']:.2f} bit in {one['seconds']:g} s" for one in data["tries"]
        ]
    return "\n".join([*lines, f"  Likely: {'; '.join(map(one_says, data['likely'][:4]))}."])


def one_says(one: dict[str, Any]) -> str:
    """An element with its likelihood."""
    return f"{one['says']} ({one['likelihood']:.0%})"
