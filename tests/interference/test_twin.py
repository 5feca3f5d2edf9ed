"""The formulas in the browser beside those in Python: two thousand random runs written by Python as JSON,
answered by both, equal to 1e-9.

Both add in double precision and take the same functions from their libraries; they may differ by rounding and
by nothing else."""

import json
from dataclasses import asdict
from math import isclose
from pathlib import Path
from random import Random

import pytest
from front import in_node, joined, scripts

from generator import interference
from generator.interference import words
from generator.interference.address import write as address
from generator.interference.answer import answer
from generator.interference.published import as_data
from generator.interference.reach import treble
from generator.interference.reading import reading
from generator.interference.remedies import remedies, six_decibels
from generator.interference.told import cautions

from .random_runs import random_run

NUMBERS = scripts(
    "interference/formulas",
    *(
        f"interference/{name}.js"
        for name in [
            "guesses",
            "between",
            "nearby",
            "numbers",
            "paths",
            "radio",
            "answer",
            "changes",
            "remedies",
            "words",
            "address",
        ]
    ),
)
SEED, MANY, CURED = 20261128, 2000, 80
RELATIVE, FLOOR = 1e-9, 1e-30  # of a number; V, below which a number is nothing

ASKED = """
const runs = Ringfence.interference, { tables, all, cured } = given;
const says = (answer, run) => [runs.headline(answer), ...answer.radio.map((one) => runs.ofRadio(one, tables)),
...runs.cautions(run, tables)];
const told = all.map((run, i) => ({
  answer: runs.answer(run, tables), says: says(runs.answer(run, tables), run), treble: runs.trebleOf(run,
  tables), address: runs.writeAddress(run),
  ...(i < cured ? { remedies: runs.remedies(run, tables), six: runs.sixDecibels(run, tables), reading:
  runs.reading(run, tables) } : {}),
}));
const read = given.addresses.map((hash) => runs.readAddress(hash, tables));
process.stdout.write(JSON.stringify({ told, read }));
"""
NAMES = {"inRange": "in_range"}  # what the browser calls otherwise


def answered(given: dict, tmp_path: Path) -> dict:
    """What the scripts make of it."""
    data = tmp_path / "given.json"
    data.write_text(json.dumps(given), encoding="utf-8")
    start = "globalThis.window = globalThis; globalThis.Ringfence = {};"
    load = f'const given = JSON.parse(require("node:fs").readFileSync({json.dumps(str(data))}, "utf8"));'
    return in_node(f"{start}\n{load}\n{joined(NUMBERS)}\n{ASKED}")


def differences(own, other, where=""):
    """Every place where two trees differ by more than rounding."""
    if isinstance(own, dict):
        other = {NAMES.get(key, key): value for key, value in other.items()}
        if set(own) != set(other):
            yield f"{where}: keys {sorted(set(own) ^ set(other))}"
        for key in set(own) & set(other):
            yield from differences(own[key], other[key], f"{where}.{key}")
    elif isinstance(own, (list, tuple)):
        if len(own) != len(other):
            yield f"{where}: {len(own)} and {len(other)} of them"
        for i, (one, two) in enumerate(zip(own, other)):
            yield from differences(one, two, f"{where}[{i}]")
    elif isinstance(own, (int, float)) and not isinstance(own, bool):
        if (
            other is None
            or isinstance(other, str)
            or not isclose(own, other, rel_tol=RELATIVE, abs_tol=FLOOR if abs(own) < 1 else 0.0)
        ):
            yield f"{where}: {own!r} and {other!r}"
    elif own != other:
        yield f"{where}: {own!r} and {other!r}"


@pytest.fixture(scope="module")
def both(tables, tmp_path_factory):
    """(runs, what Python says, what the scripts say)."""
    rng = Random(SEED)
    all = [random_run(rng, tables) for _ in range(MANY)]
    given = {
        "tables": as_data(tables),
        "all": [one.as_data() for one in all],
        "cured": CURED,
        "addresses": [address(one) for one in all],
    }
    return all, answered(given, tmp_path_factory.mktemp("twin"))


def test_two_thousand_answers_agree(both, tables):
    all, found = both
    assert len(all) == MANY
    wrong = []
    for number, (run, other) in enumerate(zip(all, found["told"])):
        own = asdict(answer(run, tables))
        for apart in differences(own, other["answer"], f"run {number}"):
            if (".below" not in apart and ".noise[" not in apart) or not _close(apart):
                wrong.append(apart)
        if said(answer(run, tables), run, tables) != other["says"]:
            wrong.append(f"run {number}: {said(answer(run, tables), run, tables)} and {other['says']}")
        if not isclose(treble(run, tables), other["treble"], rel_tol=RELATIVE, abs_tol=1e-12):
            wrong.append(f"run {number}: treble {treble(run, tables)} and {other['treble']}")
    assert not wrong, f"{len(wrong)} of them\n" + "\n".join(wrong[:20])


def said(found, run, tables):
    """The sentences of an answer."""
    radio = [words.of_radio(one, tables) for one in found.radio]
    return [words.headline(found), *radio, *cautions(run, tables)]


def _close(apart: str) -> bool:
    own, other = apart.rsplit(": ", 1)[1].split(" and ")
    return "None" not in (own, other) and abs(float(own) - float(other)) < 1e-8


def test_cures_readings_and_distances_agree(both, tables):
    all, found = both
    wrong = []
    for number, (run, other) in enumerate(zip(all[:CURED], found["told"])):
        cures = remedies(run, tables)
        if [one.id for one in cures] != [one["id"] for one in other["remedies"]]:
            wrong.append(
                f"run {number}: {[one.id for one in cures]} and {[one['id'] for one in other['remedies']]}"
            )
            continue
        for one, two in zip(cures, other["remedies"]):
            if one.words != two["words"] or one.of.as_data() != _run(two["of"]):
                wrong.append(f"run {number}: {one.id} changes {one.of.as_data()} and {two['of']}")
            for a, b in zip((*one.gains, one.radio), (*two["gains"], two["radio"])):
                if (a is None) != (b is None) or (a is not None and abs(a - b) > 1e-8):
                    wrong.append(f"run {number}: {one.id} gains {a} and {b}")
        six, times = six_decibels(run, tables), other["six"]
        if (six is None) != (times is None) or (six is not None and not isclose(six, times, rel_tol=1e-8)):
            wrong.append(f"run {number}: {six} and {times} times as far")
        own = reading(run, tables)
        wrong += [
            w
            for w in differences(asdict(own) if own else None, other["reading"], f"run {number} reading")
            if not _close(w)
        ]
    assert not wrong, f"{len(wrong)} of them\n" + "\n".join(wrong[:20])


def _run(data: dict) -> dict:
    return interference.from_data(data).as_data()


def test_addresses_are_read_back(both):
    """What Python writes, the browser reads; what the browser writes is the same address but for
    how numbers are spelt.
    """
    all, found = both
    for run, read, told in zip(all, found["read"], found["told"]):
        assert read["unknown"] == [], address(run)
        assert interference.from_data(read["run"]) == run
        assert told["address"].count("&") == address(run).count("&")


def test_a_hostile_address_is_told_and_harmless(tables, tmp_path):
    hashes = [
        "#from=constructor&into=__proto__&lead=toString,5",
        "#lead=coax-thin,-5&beside=flex,lamp,1e9,0.1&spare=coiled,NaN,1e99",
        "#" + "&".join(["radio=phone,1"] * 5000),
        "#assume=loop-width,Infinity&assume=__proto__,1&mains=1,1&sockets=moon",
        "#name=" + "x" * 10000,
    ]
    given = {"tables": as_data(tables), "all": [], "cured": 0, "addresses": hashes}
    read = answered(given, tmp_path)["read"]
    usual = interference.from_data(read[4]["run"])
    assert read[0]["run"]["source"]["device"] == usual.source.device and len(read[0]["unknown"]) == 3
    assert read[1]["run"]["leads"][0]["length"] == 5 and len(read[1]["unknown"]) == 4
    assert len(read[2]["run"]["transmitters"]) == 12
    assert read[3]["run"]["assume"] == {"loop-width": 0} and len(read[3]["unknown"]) == 4
    assert len(read[4]["run"]["name"]) == 80
