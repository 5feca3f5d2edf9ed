"""Own numbers in the browser and in Python: the same words are understood and refused, in the same words, and
they make the same record and verdict."""

import json
import os
import random
from dataclasses import replace
from math import isclose

import pytest
from front import run, scripts

from generator.catalogue import default_directory, load
from generator.catalogue.published import as_data
from generator.engine import judge
from generator.engine.tables import tables
from generator.ledger import lines
from generator.own import Nonsense, changed, said

from .random_numbers import sets

WHOLE = bool(os.environ.get("RINGFENCE_WHOLE"))
# sets of numbers; of these, how many at most are judged as well: some 0.1 s each, without WHOLE
# those of small circuits
SETS, JUDGED = 2000, 2000 if WHOLE else 200
PART, RELATIVE = 50 if WHOLE else SETS, 1e-9  # sets told to one process
OWN = scripts(
    "engine", "ui/dom.js", "ui/words.js", "ui/catalogue.js", "own/quantity.js", "own/said.js", "own/apply.js"
)
TELL = """(() => { const { own } = Ringfence; return %s.map(({ port, answers, chain }) => {
  const asks = own.asksOf(port), told = Object.entries(answers).map(([id, typed]) => {
    const ask = asks.find((one) => one.id === id), read = own.said(typed, ask, own.question(ask));
    return [id, read.reason ? { reason: read.reason } : read.silent ? null : read.text]; });
  const good = Object.fromEntries(Object.entries(answers).filter(([id, typed]) => !own.said(typed,
    asks.find((one) => one.id === id), own.question(asks.find((one) => one.id === id))).reason));
  const made = own.changed(Ringfence.data.ports[port], good).port;
  const judged = chain && Ringfence.engine.judge({ ...Ringfence.data, ports: { ...Ringfence.data.ports,
    [port]: made } }, Ringfence.rulebook, chain);
  return { told: Object.fromEntries(told), record: [made.network, made.sources, made.listeners, made.needs],
    verdict: judged && [judged.verdict, judged.findings.map((one) => [one.id, one.severity, one.evidence])],
    values: judged && judged.findings.map(({ value }) => value) };
}); })()"""


@pytest.fixture(scope="module")
def catalogue():
    return load(default_directory())


@pytest.fixture(scope="module")
def asked(catalogue):
    """The sets, some with a cheap connection to judge."""
    draw, chosen, left = random.Random(7), sets(catalogue, SETS, 15), JUDGED
    rows = list(lines.rows(lines.read(default_directory() / "verdicts")))
    small = {name for name, port in catalogue.ports.items() if WHOLE or len(port.network.parts) < 10}
    ways = {}
    for one in rows:
        if (
            {one["from"], one["into"]} <= small
            and one["from"] != one["into"]
            and (WHOLE or all(len(catalogue.leads[name].network.parts) < 12 for name in one["through"]))
        ):
            for end in ("from", "into"):
                ways.setdefault(one[end], []).append(one)
    made = []
    for one in chosen:
        way = draw.choice(ways[one.port]) if left and one.port in ways else None
        left -= bool(way)
        made.append(
            {
                "port": one.port,
                "answers": one.answers,
                "chain": way and {name: way[name] for name in ("from", "through", "into")},
            }
        )
    return made


@pytest.fixture(scope="module")
def browser(catalogue, asked, tmp_path_factory):
    """What the scripts say of every set."""
    data = as_data(catalogue)
    file = tmp_path_factory.mktemp("own") / "data.json"
    asks = {name: port["asks"] for name, port in data["ports"].items()}
    file.write_text(
        json.dumps({"data": data, "manual": {"questions": data["questions"], "asks": asks}, **tables()})
    )
    return [
        one
        for start in range(0, SETS, PART)
        for one in run(TELL % json.dumps(asked[start : start + PART]), OWN, file)
    ]


def python(catalogue, one):
    port, told, good = catalogue.ports[one["port"]], {}, {}
    asks = {ask.id: ask for ask in port.asks}
    for id, typed in one["answers"].items():
        try:
            told[id] = said(typed, asks[id], catalogue.questions[asks[id].question])
            good[id] = typed
        except Nonsense as why:
            told[id] = {"reason": str(why)}
    return told, changed(port, good, catalogue.questions)


def test_both_understand_and_refuse_alike(catalogue, asked, browser):
    told = [python(catalogue, one)[0] for one in asked]
    wrong = [
        (one["answers"], ours, theirs["told"])
        for one, ours, theirs in zip(asked, told, browser)
        if ours != theirs["told"]
    ]
    assert wrong[:5] == []
    told = [value for theirs in browser for value in theirs["told"].values()]
    assert (
        min(
            sum(isinstance(value, dict) for value in told),
            sum(isinstance(value, str) for value in told),
            sum(value is None for value in told),
        )
        > 50
    ), "every kind occurs"


def test_both_make_the_same_record(catalogue, asked, browser):
    alone = replace(catalogue, connectors={}, assignments={}, leads={}, sources={}, questions={})
    for one, theirs in zip(asked, browser):
        made = python(catalogue, one)[1]
        ours = as_data(replace(alone, ports={"x": made}))["ports"]["x"]
        assert same([ours["network"], ours["sources"], ours["listeners"], ours["needs"]], theirs["record"]), (
            one
        )


def same(one, two):
    if isinstance(one, dict) and isinstance(two, dict):
        return one.keys() == two.keys() and all(same(one[key], two[key]) for key in one)
    if isinstance(one, list) and isinstance(two, list):
        return len(one) == len(two) and all(map(same, one, two))
    if isinstance(one, float) or isinstance(two, float):
        return (
            isinstance(one, (int, float))
            and isinstance(two, (int, float))
            and isclose(one, two, rel_tol=1e-12)
        )
    return one == two


def test_both_judge_alike(catalogue, asked, browser, record_property):
    judged = [(one, theirs) for one, theirs in zip(asked, browser) if one["chain"]]
    assert len(judged) == JUDGED or (WHOLE and len(judged) > 0.95 * SETS)  # a port may fit nothing
    record_property("told", f"{len(judged)} of {SETS} sets of own numbers judged by both")
    verdicts = set()
    for one, theirs in judged:
        chain = one["chain"]
        own = replace(catalogue, ports={**catalogue.ports, one["port"]: python(catalogue, one)[1]})
        verdict = judge(own, chain["from"], chain["through"], chain["into"])
        assert [
            verdict.verdict,
            [[finding.id, finding.severity, finding.evidence] for finding in verdict.findings],
        ] == theirs["verdict"], one
        for ours, value in zip((finding.value for finding in verdict.findings), theirs["values"]):
            assert (ours is None) == (value is None) and (
                ours is None or isclose(ours, value, rel_tol=RELATIVE, abs_tol=1e-9)
            ), (one, ours, value)
        verdicts.add(verdict.verdict)
    assert len(verdicts) >= 3
