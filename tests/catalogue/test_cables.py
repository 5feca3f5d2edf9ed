"""Conductors of a cable: resistance in series, capacitance between them. Expected
figures are worked by hand."""

import pytest

from generator.catalogue import Join
from generator.catalogue.cables import Cable, lay
from generator.catalogue.quantity import parse

PAIR = Cable(parse("3 m"), parse("80 mohm/m"), parse("20 mohm/m"), parse("60 pF/m"), parse("100 pF/m"))
HOT = Join("hot", ("a.2", "b.tip"), False)
COLD = Join("cold", ("a.3", "b.ring"), False)
SCREEN = Join("screen", ("a.1", "b.sleeve"), True)


def told(parts):
    """id -> (kind, a, b, nominal value)"""
    return {
        part.id: (part.kind, part.a, part.b, part.value and pytest.approx(part.value.nominal))
        for part in parts
    }


def test_two_ends():
    """3 m x 80 mohm/m = 240 mohm; screen 60 mohm; 3 m x 60 pF/m = 180 pF and 3 m x 100 pF/m = 300
    pF, half at either end."""
    assert told(lay([HOT, COLD, SCREEN], ("a", "b"), PAIR)) == {
        "cable.hot": ("resistor", "a.2", "b.tip", 0.24),
        "cable.cold": ("resistor", "a.3", "b.ring", 0.24),
        "cable.screen": ("resistor", "a.1", "b.sleeve", 0.06),
        "cable.hot-cold.a": ("capacitor", "a.2", "a.3", 90e-12),
        "cable.hot-cold.b": ("capacitor", "b.tip", "b.ring", 90e-12),
        "cable.hot-screen.a": ("capacitor", "a.2", "a.1", 150e-12),
        "cable.hot-screen.b": ("capacitor", "b.tip", "b.sleeve", 150e-12),
        "cable.cold-screen.a": ("capacitor", "a.3", "a.1", 150e-12),
        "cable.cold-screen.b": ("capacitor", "b.ring", "b.sleeve", 150e-12),
    }


def test_contacts_of_one_end_are_linked_in_the_plug():
    linked = Join("screen", ("a.1", "a.3", "b.sleeve"), True)
    parts = told(lay([linked], ("a", "b"), PAIR))
    assert parts == {
        "join.screen.a.a.3": ("wire", "a.1", "a.3", None),
        "cable.screen": ("resistor", "a.1", "b.sleeve", 0.06),
    }


def test_inner_nodes_attach_at_the_end_listed_first():
    parts = told(lay([Join("hot", ("x", "b.tip", "a.2"), False)], ("a", "b"), PAIR))
    assert parts == {
        "join.hot.b.x": ("wire", "b.tip", "x", None),
        "cable.hot": ("resistor", "b.tip", "a.2", 0.24),
    }


def test_more_ends_meet_at_a_hub():
    """Each ray has half the resistance: 120 mohm, and 30 mohm of screen; all the
    capacitance is between the hubs."""
    hot = Join("hot", ("a.2", "b.2", "c.2"), False)
    screen = Join("screen", ("a.1", "b.1", "c.1"), True)
    parts = told(lay([hot, screen], ("a", "b", "c"), PAIR))
    assert parts["cable.hot.c"] == ("resistor", "c.2", "cable.hot.hub", 0.12)
    assert parts["cable.screen.a"] == ("resistor", "a.1", "cable.screen.hub", 0.03)
    assert parts["cable.hot-screen"] == ("capacitor", "cable.hot.hub", "cable.screen.hub", 300e-12)
    assert len(parts) == 7


def test_legs_of_a_splitter_share_what_ends_they_have():
    """Left runs a to b, right a to c, the screen to all: left and right lie side by side at a only."""
    left, right = Join("left", ("a.tip", "b.tip"), False), Join("right", ("a.ring", "c.tip"), False)
    screen = Join("screen", ("a.sleeve", "b.sleeve", "c.sleeve"), True)
    parts = told(lay([left, right, screen], ("a", "b", "c"), PAIR))
    assert {id for id in parts if id.startswith("cable.left-right")} == {"cable.left-right.a"}
    assert parts["cable.left-screen.b"] == ("capacitor", "b.tip", "b.sleeve", 150e-12)


def test_a_core_cut_off_still_has_its_capacitance():
    parts = told(lay([Join("cold", ("a.3",), False), SCREEN], ("a", "b"), PAIR))
    assert parts["cable.cold"] == ("resistor", "a.3", "cable.cold.b", 0.24)
    assert parts["cable.cold-screen.b"] == ("capacitor", "cable.cold.b", "b.sleeve", 150e-12)


def test_a_link_inside_one_plug_does_not_run_along_the_cable():
    parts = told(lay([Join("link", ("b.ring", "b.sleeve"), False), HOT], ("a", "b"), PAIR))
    assert parts == {
        "join.link.b.sleeve": ("wire", "b.ring", "b.sleeve", None),
        "cable.hot": ("resistor", "a.2", "b.tip", 0.24),
    }


def test_without_a_cable_joins_are_wires():
    assert told(lay([Join("hot", ("a.2", "b.tip", "b.ring"), False)], ("a", "b"), None)) == {
        "join.hot.b.tip": ("wire", "a.2", "b.tip", None),
        "join.hot.b.ring": ("wire", "a.2", "b.ring", None),
    }


def test_no_capacitor_where_there_is_none_or_no_figure():
    coax = Cable(parse("3 m"), parse("80 mohm/m"), parse("20 mohm/m"), parse("0 pF/m"), None)
    assert [part.kind for part in lay([HOT, COLD, SCREEN], ("a", "b"), coax)] == ["resistor"] * 3


def test_ranges_carry_through():
    cable = Cable(parse("2..4 m"), parse("80 mohm/m +-10 %"), None, None, None)
    value = lay([HOT], ("a", "b"), cable)[0].value
    assert (value.low, value.nominal, value.high) == pytest.approx((2 * 0.072, 3 * 0.08, 4 * 0.088))
    assert (value.unit, value.text) == ("ohm", "80 mohm/m +-10 % x 2..4 m")
