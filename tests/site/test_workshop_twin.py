"""The fault dictionary a phone works out for a lead of the bench is the one Python works out for a
lead of the catalogue."""

import json
from random import Random

import pytest
from front import run, scripts

from generator.catalogue.light import fibres
from generator.catalogue.published import as_data
from generator.workshop.carried import MANY, carried, published
from generator.workshop.faulty import faults
from generator.workshop.readings import pairs as pairs_of
from generator.workshop.sheets import build_sheet, cable, ordering_sheet
from generator.workshop.specimen import on_bench

SEED, SOME, DEAR = 20261129, 36, 200
NEAR = 1e-6  # of a bound in ohm; they are steps of a display
DICTIONARY = """Ringfence.asked.map((id) => { const { data, faults, tables } = Ringfence;
const contacts = Object.fromEntries(Object.values(data.connectors).map((one) => [one.id, one.contacts]));
const steps = faults.dictionary(data.leads[id], contacts, tables); let step = steps.next();
  while (!step.done) step = steps.next(); return step.value; })"""

SHEETS = """Ringfence.asked.map((id) => { const { data, faults, tables } = Ringfence;
const contacts = Object.fromEntries(Object.values(data.connectors).map((one) => [one.id, one.contacts]));
const made = faults.sheet(data.leads[id], contacts, tables);
  return { ...made, strip: made.strip.map(({ sheath }) => sheath) }; })"""


ORDERS = """Ringfence.asked.map(({ id, cable }) => { const { data, faults, tables } = Ringfence,
lead = data.leads[id];
const contacts = Object.fromEntries(Object.values(data.connectors).map((one) => [one.id, one.contacts]));
const connectors = Object.fromEntries(Object.values(data.connectors).map((one) => [one.id, one.name]));
return faults.order(lead, faults.sheet(lead, contacts, tables), tables, { name: lead.name, connectors, cable,
  parts: [] }); })"""


@pytest.fixture(scope="module")
def drawn(catalogue):
    """Leads of few enough faults, drawn from all, and one of each kind of part."""
    named = [
        "xlr-f-to-xlr-m-3m",
        "xlr-f-to-xlr-m-pad-20-db",
        "xlr-f-to-xlr-m-phantom-block",
        "rca-to-rca-transformer",
        "bnc-to-35-trs-timecode-attenuator",
    ]
    small = [
        lead
        for lead in catalogue.leads.values()
        if lead.id not in named
        and not fibres(lead, catalogue.connectors)  # the bench has no plugs for those
        and len(faults(on_bench(catalogue, lead))) <= DEAR
    ]
    return [*named, *(lead.id for lead in Random(SEED).sample(small, SOME))]


@pytest.fixture(scope="module")
def made(catalogue, drawn, tmp_path_factory):
    file = tmp_path_factory.mktemp("faults") / "data.json"
    file.write_text(json.dumps({"data": as_data(catalogue), "tables": published(catalogue), "asked": drawn}))
    return dict(zip(drawn, run(DICTIONARY, scripts("faults"), file)))


def bounds(known):
    """What every measurement reads under every fault: rows of bounds, whatever the classes are called."""
    count = len(known["measurements"])
    numbers = [ord(sign) - 48 for sign in known["which"]]
    return [
        [known["classes"][k] for k in numbers[f * count : (f + 1) * count]]
        for f in range(len(known["faults"]))
    ]


def same(one, other):
    return one[2] == other[2] and all(
        a is b if a is None or b is None else abs(a - b) <= NEAR * max(1.0, abs(a))
        for a, b in zip(one[:2], other[:2])
    )


def test_the_same_faults_measurements_and_readings(catalogue, made):
    wrong = []
    for id, other in made.items():
        own = json.loads(json.dumps(carried(catalogue, catalogue.leads[id], {})))
        wrong += [
            (id, key)
            for key in ("faults", "groups", "mends", "terminals", "places", "measurements", "moves", "rules")
            if own[key] != other[key]
        ]
        for f, (row, column) in enumerate(zip(bounds(own), bounds(other))):
            wrong += [(id, f, m, a, b) for m, (a, b) in enumerate(zip(row, column)) if not same(a, b)]
        if sorted(set(own["shows"])) != sorted(set(other["shows"])):
            wrong.append((id, set(own["shows"]) ^ set(other["shows"])))
    assert len(made) == SOME + 5 and not wrong, f"{len(wrong)}: {wrong[:8]}"


def test_a_lead_of_too_many_faults_is_refused_alike(catalogue, tmp_path):
    many = next(lead for lead in catalogue.leads.values() if len(faults(on_bench(catalogue, lead))) > MANY)
    assert carried(catalogue, many, {}) is None
    file = tmp_path / "data.json"
    file.write_text(
        json.dumps({"data": as_data(catalogue), "tables": published(catalogue), "asked": [many.id]})
    )
    assert run(DICTIONARY, scripts("faults"), file) == [None]


def test_no_probe_goes_to_a_fibre(catalogue, tmp_path):
    id = "camera-hybrid-to-camera-hybrid"
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"data": as_data(catalogue), "tables": published(catalogue), "asked": [id]}))
    [other] = run(DICTIONARY, scripts("faults"), file)
    assert other["terminals"] == list(on_bench(catalogue, catalogue.leads[id]).terminals)
    assert "a.1" in other["terminals"] and "a.a" not in other["terminals"]


def test_the_same_build_sheets(catalogue, drawn, tmp_path):
    """What is soldered where, and in which order one works, for leads that are in the catalogue."""
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"data": as_data(catalogue), "tables": published(catalogue), "asked": drawn}))
    found = run(SHEETS, scripts("faults"), file)
    wrong = []
    for id, other in zip(drawn, found):
        own = build_sheet(catalogue, catalogue.leads[id])
        mine = {
            "solder": [{key: one[key] for key in ("end", "label", "contacts")} for one in own["solder"]],
            "steps": own["steps"],
            "says": [own[key] for key in ("shell", "colours", "sleeve") if own[key]],
            "strip": [row["sheath"] for row in own["strip"]],
        }
        wrong += [(id, key) for key in mine if mine[key] != other[key]]
    assert not wrong, wrong


def test_the_same_ordering_sheets(catalogue, drawn, tmp_path):
    """Ends, cable, screen, every contact and every pair that must read something; what must read nothing is
    one line on the phone, and parts are said by the bench."""
    leads = [catalogue.leads[id] for id in drawn]
    asked = [
        {"id": lead.id, "cable": f"{cable(lead)}, {lead.length:g} m" if lead.cable else ""} for lead in leads
    ]
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"data": as_data(catalogue), "tables": published(catalogue), "asked": asked}))
    for lead, other in zip(leads, run(ORDERS, scripts("faults"), file)):
        own = ordering_sheet(catalogue, lead)
        head, mine = own.split("It must pass")[0], other.split("It must pass")[0]
        if lead.parts:
            head = head.split("Parts inside:")[0]
            mine = mine.split("Shell:")[0]
        assert mine == head, lead.id
        tested = other.split("plugs:\n")[1].splitlines()
        assert tested[-1] == f"  every other pair: {published(catalogue)['says']['none']}"
        pairs = {frozenset(line.split(":")[0].strip().split(" to ")) for line in tested[:-1]}
        ends = {f"{a}-{b}": frozenset((a, b)) for a, b in pairs_of(on_bench(catalogue, lead))}
        told = {ends[row["between"]] for row in build_sheet(catalogue, lead)["test"]["rows"]}
        assert told == pairs, lead.id
