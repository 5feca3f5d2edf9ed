"""The engine in the browser beside the engine in Python: the same questions to both, and every field in
which their answers differ.

Both eliminate in double precision, in a different order; numbers may differ by rounding and by nothing else.
See `agree` for what that allows.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from math import inf, isclose
from multiprocessing import get_context
from os import cpu_count
from pathlib import Path

import chromium
from playwright.sync_api import Page, sync_playwright

from generator.catalogue import Catalogue
from generator.catalogue.published import as_data
from generator.engine import constants, judge
from generator.engine.constants import CONTACT_OHM, SILENT
from generator.engine.tables import tables
from generator.site import data
from generator.site.small import small

ENGINE = Path(__file__).parents[2] / "site_src/assets/js/engine"
RELATIVE = 1e-9
# Rounding beside a contact's 100 S is as good as a leak from every net to its 0 V of up to this, S (some
# contacts on a net, some steps of elimination, on each side): a few volts times it is what small currents may
# differ by, and a resistance R by a share of LEAK * R.
LEAK = 32 * 2.2e-16 / CONTACT_OHM
LARGEST = 1e5  # ohm; what a large capacitor fills through at most, and with it the time that takes
# 50 V times LEAK, and what such a current leaves across 50 kilohms
FLOORS = {"V": 5e-7, "A": 1e-10, "W": 1e-9, "": 1e-6}
# of the source: -160 dB, a hundred below what still counts as heard; LEAK across some tens of kilohms
GAIN_FLOOR = 1e-8
DECIBELS, DECIBELS_PER_NEPER = 1e-7, 8.686
BATCH = 250  # questions in one call of the page
Question = tuple[str, tuple[str, ...], str]

ASKED = """batch => JSON.stringify(batch.map(([from, through, into]) => {
    try { return Ringfence.judge(given.data, given.rulebook, {from, through, into}); } catch (error) { return {failed: String(error)}; }
}))"""


@dataclass
class Comparison:
    """`wrong` tells each difference in a sentence; `worst` is the largest allowed difference of two numbers,
    as a share of what is allowed."""

    compared: int = 0
    # what Python solves and the browser gives up on: dangerous there, so on the careful side
    refused: int = 0
    tied: int = 0  # of two capacitors that take equally long, to the last bits, each named another
    wrong: list[str] = field(default_factory=list)
    worst: dict[str, tuple[float, str]] = field(default_factory=dict)


@contextmanager
def engine_page(catalogue: Catalogue) -> Iterator[Page]:
    """A blank page with the engine's scripts made small as they are published, which has the catalogue and
    what is judged by in `given`."""
    with sync_playwright() as playwright:
        browser = chromium.launched(playwright)
        page = browser.new_page()
        sources = [
            data.script({"constants": constants.values()}),
            *(script.read_bytes() for script in sorted(ENGINE.glob("*.js"))),
        ]
        page.add_script_tag(content=small({"engine.js": b"".join(sources)})["engine.js"].decode())
        given = {"data": as_data(catalogue), **tables()}
        page.evaluate(
            "text => { window.given = JSON.parse(text); Ringfence.powering = given.powering; }",
            json.dumps(given),
        )
        yield page
        browser.close()


def compare(
    catalogue: Catalogue, questions: Sequence[Question], known: Sequence[dict] | None = None
) -> Comparison:
    """Put questions to both engines, on all cores. `known` are the Python engine's answers in the same order,
    where they are known already."""
    parts = cpu_count() or 1
    whole = Comparison()
    shares = [
        slice(len(questions) * part // parts, len(questions) * (part + 1) // parts) for part in range(parts)
    ]
    # Started afresh: a forked process would inherit the event loop of other tests' browsers.
    with get_context("spawn").Pool(parts) as pool:
        for one in pool.starmap(
            _compare_share,
            [(catalogue, questions[share], known and known[share]) for share in shares],
            chunksize=1,
        ):
            whole.compared += one.compared
            whole.refused += one.refused
            whole.tied += one.tied
            whole.wrong += one.wrong
            for unit, found in one.worst.items():
                whole.worst[unit] = max(found, whole.worst.get(unit, found))
    return whole


def _compare_share(
    catalogue: Catalogue, questions: Sequence[Question], known: Sequence[dict] | None
) -> Comparison:
    found = Comparison(len(questions))
    with engine_page(catalogue) as page:
        for start in range(0, len(questions), BATCH):
            batch = questions[start : start + BATCH]
            own = (
                known[start : start + BATCH]
                if known
                else [json.loads(json.dumps(judge(catalogue, *question).as_data())) for question in batch]
            )
            for question, one, other in zip(batch, own, json.loads(page.evaluate(ASKED, batch)), strict=True):
                name = " > ".join([question[0], *question[1], question[2]])
                if _gave_up(other) and not _gave_up(one):
                    found.refused += 1
                    continue
                found.tied += _settle_ties(one, other)
                found.wrong += [
                    f"{name}: {difference}" for difference in differences(one, other, worst=found.worst)
                ]
    return found


def _gave_up(answer: dict) -> bool:
    return answer["verdict"] == "dangerous" and [finding["id"] for finding in answer["findings"]] == [
        "not-solved"
    ]


def _settle_ties(own: dict, other: dict) -> int:
    """Give both the same words where they agree how long the slowest capacitor takes and not which of several
    it is. How often that was."""
    tied = 0
    for one, two in zip(own["findings"], other["findings"]):
        if (
            one["id"] == two["id"] == "wait-for-capacitors"
            and one["where"] != two["where"]
            and isclose(one["value"], two["value"], rel_tol=RELATIVE)
        ):
            two["where"], two["says"], tied = one["where"], one["says"], tied + 1
    return tied


def differences(own, other, where: str = "", unit: str = "", worst: dict | None = None) -> Iterator[str]:
    """Every field in which two answers differ, in words. Numbers may differ as `agree` allows; the largest
    such go into `worst`, by unit."""
    if isinstance(own, dict) and isinstance(other, dict):
        unit = own.get("unit", unit)
        for key in own.keys() | other.keys():
            if key in own and key in other:
                yield from differences(own[key], other[key], f"{where}.{key}", unit, worst)
            else:
                yield (
                    f"{where}.{key}: {'only in Python' if key in own else 'only in the browser'}: "
                    f"{own.get(key, other.get(key))!r}"
                )
    elif isinstance(own, list) and isinstance(other, list):
        if len(own) != len(other):
            yield f"{where}: Python has {len(own)} ({_told(own)}), the browser {len(other)} ({_told(other)})"
        else:
            for i, (one, two) in enumerate(zip(own, other)):
                yield from differences(one, two, f"{where}[{i}]", unit, worst)
    elif _number(own) and _number(other):
        share = abs(own - other) / allowed(own, other, unit)
        if not share <= 1:
            yield (
                f"{where}: Python has {own!r} {unit}, the browser {other!r} {unit}, {share:.3g} times what "
                "rounding allows"
            )
        elif worst is not None and own != other:
            worst[unit] = max(worst.get(unit, (0.0, "")), (share, f"{own!r} and {other!r} {unit}"))
    elif own != other or isinstance(own, bool) != isinstance(other, bool):
        yield f"{where}: Python has {own!r}, the browser {other!r}"


def allowed(own: float, other: float, unit: str) -> float:
    """How far apart two numbers may be and still be the same one.

    1e-9 of the number, and what rounding beside a contact's 100 S leaves (see LEAK). Decibels are compared as
    the ratios they stand for: within 2e-7 dB at 0 dB, 1e-4 dB at -60 dB where nothing is heard any more;
    below -120 dB both say no more than that.
    """
    size = max(abs(own), abs(other))
    if unit == "dB" and max(own, other) < SILENT:
        return inf
    if unit == "dB":
        return DECIBELS + DECIBELS_PER_NEPER * GAIN_FLOOR * 10 ** (size / 20)
    leaked = {"ohm": LEAK * size, "s": LEAK * LARGEST}.get(unit, 0.0)
    return (RELATIVE + leaked) * size + FLOORS.get(unit, 1e-12)


def _number(value) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _told(items: list) -> str:
    return ", ".join(str(item.get("id", item)) if isinstance(item, dict) else str(item) for item in items)
