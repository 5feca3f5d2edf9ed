"""Checked trees become complete records: units in SI, millimetres on connectors, names spelt out."""

import pytest

from generator.catalogue import Coupling, Evidence, Reference, Spot, Spring, Supply, load


@pytest.fixture
def tiny_catalogue(pinouts):
    return load(pinouts)


def test_concentric(tiny_catalogue):
    jack = tiny_catalogue.connectors["jack"]
    assert jack.bore == "jack", "a connector without a bore has its own"
    assert jack.contacts == ("tip", "ring", "sleeve")
    assert jack.halves["plug"].segments == {"tip": (0, 9), "ring": (10, 15), "sleeve": (16, 30)}
    assert jack.halves["plug"].sizes == {"diameter": 6.35}
    assert jack.halves["jack"].springs["tip"] == Spring(4, 6, 1)


def test_circular(tiny_catalogue):
    connector = tiny_catalogue.connectors["round"]
    assert connector.contacts == ("1", "2", "3")
    assert connector.face["1"] == Spot(270, 3.81)
    assert connector.key_angle == 90
    assert connector.halves["female"].forward == {"1": 1, "2": 0, "3": 0}
    assert connector.evidence == Evidence("published", ("handbook",), "2026-11-25")


def test_sources_and_retired(tiny_catalogue):
    assert tiny_catalogue.sources == {"handbook": Reference("handbook", "A handbook", "page 1", "handbook")}
    assert tiny_catalogue.retired == {"old-jack": ("jack",), "old-leads": ("straight", "crossed")}


def test_port_is_expanded(tiny_catalogue):
    port = tiny_catalogue.ports["desk-in"]
    assert port.contacts == {"1": "screen", "2": "hot", "3": "cold"}
    parts = {part.id: (part.a, part.b) for part in port.network.parts}
    assert parts["main.rail"] == ("main.rail", "chassis")
    assert parts["main.couple"] == ("hot", "main.in-hot")
    assert parts["main.bond"] == ("screen", "chassis")
    assert port.supplies == (Supply("phantom", "phantom 48 V", ("on", "off"), "pair"),)
    assert port.circuits == ("input",)
    listener = port.listeners[0]
    assert (listener.id, listener.channel, listener.between) == ("main.main", "main", ("main.in-hot", "cold"))
    assert listener.sensitivity is None
    assert listener.maximum == pytest.approx(0.7746, abs=5e-5)
    assert listener.balanced


def test_a_port_replaces_a_parameter(tiny_catalogue):
    parts = {part.id: part for part in tiny_catalogue.ports["desk-in"].network.parts}
    feed, rail = parts["main.feed-hot"], parts["main.rail"]
    assert (feed.value.nominal, feed.value.low) == (6800, 6800)
    assert (feed.skew, parts["main.feed-cold"].skew, feed.match) == (1, -1, 0.004)
    assert (rail.value.low, rail.value.high, rail.supply) == (44, 52, "phantom")


def test_source_coupling_and_need(tiny_catalogue):
    port = tiny_catalogue.ports["player-out"]
    source = port.sources[0]
    assert source.drive == {"main.drive": 1}
    assert source.nominal == pytest.approx(1.228, abs=5e-4)
    assert (source.maximum, source.least_load) == (None, 600)
    assert port.network.couplings == (Coupling("main.prim", "main.sec", 0.999),)
    assert port.needs[0].least == 10, "the most demanding specimen"
    assert {part.id: part.coil for part in port.network.parts}["main.sec"] == "winding"


def test_roles_may_have_other_names(pinouts, replace):
    replace("assignments/round-balanced.yaml", "2: hot", "2: signal")
    replace("ports/desk-in.yaml", "feed: 6.8 kohm", "roles: {hot: signal}")
    port = load(pinouts).ports["desk-in"]
    assert {part.id: part.b for part in port.network.parts}["main.feed-hot"] == "signal"
    assert port.contacts["2"] == "signal"


def test_supplies_of_two_instances_are_one_switch(pinouts, replace):
    replace(
        "ports/desk-in.yaml",
        "main: {use: input, feed: 6.8 kohm}",
        "left: {use: input}\n  right: {use: input}",
    )
    port = load(pinouts).ports["desk-in"]
    assert [supply.id for supply in port.supplies] == ["phantom"]
    assert [listener.channel for listener in port.listeners] == ["left", "right"]


def test_limit_unknown_while_plugging(tiny_catalogue):
    limit = tiny_catalogue.ports["desk-in"].network.limits[0]
    assert (limit.id, limit.part, limit.quantity, limit.settled, limit.momentary) == (
        "main.couple",
        "main.couple",
        "volts",
        63,
        None,
    )
    assert limit.evidence.grade == "common practice"
    lead_limit = tiny_catalogue.leads["block"].network.limits[0]
    assert (lead_limit.settled, lead_limit.momentary) == (None, 50)


def test_momentary_is_settled_unless_said(pinouts, replace):
    replace("circuits/input.yaml", "volts: 63 V, momentary: unknown", "volts: 60..66 V")
    limit = load(pinouts).ports["desk-in"].network.limits[0]
    assert (limit.settled, limit.momentary) == (60, 60), "the weakest specimen counts"


def test_evidence_of_a_limit_follows_its_value(pinouts, replace):
    """Own words first, then the parameter's; a value the port gives is only as well
    known as the port says."""
    replace(
        "circuits/input.yaml", "volts: 63 V, momentary: unknown, evidence: common practice", "volts: volts"
    )
    replace(
        "ports/other.yaml", "", "name: Other\nsame_as: desk-in\ncircuit: {main: {use: input, volts: 60 V}}\n"
    )
    catalogue = load(pinouts)
    stated = catalogue.ports["desk-in"].network.limits[0].evidence
    assert (stated.grade, stated.cite) == ("published", ("handbook",))
    given = catalogue.ports["other"].network.limits[0].evidence
    assert (given.grade, given.cite) == ("from memory", ())


def test_a_cable_rates_its_conductors(tiny_catalogue):
    lead = tiny_catalogue.leads["straight"]
    told = [(limit.part, limit.quantity, limit.settled) for limit in lead.network.limits]
    assert told == [(f"cable.{join}", "amps", 1) for join in ("hot", "cold", "screen")], (
        "the weakest specimen counts"
    )
    assert lead.network.limits[0].evidence.grade == "from memory"
    # 80 mohm/m is 0.01724 / 0.08 = 0.2155 mm2; heated without loss for 0.1 s: 115 x 0.2155 / sqrt(0.1) = 78.4
    # A, for 10 s a tenth of it
    assert [lead.network.limits[0].momentary, lead.network.limits[0].seconds] == pytest.approx(
        [78.37, 7.837], rel=1e-3
    )
    assert lead.impedance == 110
    assert tiny_catalogue.leads["block"].impedance is None


def test_lead(tiny_catalogue):
    lead = tiny_catalogue.leads["block"]
    assert lead.parts == ("block",)
    assert lead.looks_like == ()
    assert (lead.cable, lead.length) == (None, None)
    wires = [(part.a, part.b) for part in lead.network.parts if part.kind == "wire"]
    assert wires == [("a.tip", "inner"), ("a.ring", "b.3"), ("a.sleeve", "b.1")]
    assert tiny_catalogue.leads["straight"].ends["a"].usual == "player-out"
    assert tiny_catalogue.leads["straight"].looks_like == ("crossed",)
