"""Nets, pieces and tolerance corners."""

import pytest
from bench import circuit, part

from generator.catalogue.records import Part
from generator.engine.circuit import CircuitError, build, value_at


def test_wires_merge_nodes_into_nets():
    merged = circuit("J1 wire a b", "J2 wire b c", "R1 resistor c 0 1 kohm")
    assert merged.nets["a"] == merged.nets["b"] == merged.nets["c"] != merged.nets["0"]
    assert merged.net_count == 2


def test_the_numbering_does_not_depend_on_the_order_of_wires():
    one = circuit("R1 resistor a d 1 kohm", "J1 wire a b", "J2 wire c d", "J3 wire b c")
    other = circuit("R1 resistor a d 1 kohm", "J3 wire b c", "J2 wire c d", "J1 wire a b")
    assert one.nets == other.nets and one.net_count == 1


def test_a_part_shorted_by_wire_is_left_out():
    assert [
        p.id for p in circuit("R1 resistor a b 1 kohm", "J1 wire a b", "R2 resistor a 0 1 kohm").parts
    ] == ["R2"]


def test_an_emf_shorted_by_wire_is_refused():
    with pytest.raises(CircuitError) as refused:
        circuit("E1 emf a 0 48 V", "J1 wire a 0")
    assert str(refused.value) == "emf 'E1' is shorted by wire: both its ends are on one net"


def test_capacitors_part_direct_current_but_not_signal():
    coupled = circuit("R1 resistor a 0 1 kohm", "C1 capacitor a b 1 uF", "R2 resistor b c 1 kohm")
    assert len(coupled.islands([])) == 2
    assert len(coupled.islands([], opens=())) == 1


def test_a_closed_switch_joins_pieces():
    switched = circuit("R1 resistor a 0 1 kohm", "R2 resistor b c 1 kohm", switches=[("a", "b")])
    assert (len(switched.islands([False])), len(switched.islands([True]))) == (2, 1)


def test_an_anchor_is_the_zero_of_its_piece():
    anchored = build([part("R1 resistor a chassis 1 kohm")], (), (), ["chassis"])
    assert anchored.islands([]) == [anchored.nets["chassis"]]


@pytest.mark.parametrize(
    "line, strong, weak",
    [
        ("E1 emf a b 48 V +-4 V", 52, 44),
        ("E1 emf a b -12..-10 V", -12, -10),
        ("R1 resistor a b 10 kohm +-20 %", 8e3, 12e3),
        ("S1 sink a b 3 mA +-1 mA knee 10 V", 2e-3, 4e-3),
        ("C1 capacitor a b 10 uF +-20 %", 10e-6, 10e-6),
    ],
)
def test_strong_and_weak_corners(line, strong, weak):
    """Strong pushes the most: highest sources, lowest resistances and loads."""
    assert value_at(part(line), "strong") == pytest.approx(strong)
    assert value_at(part(line), "weak") == pytest.approx(weak)


def test_skewed_corner_pulls_a_matched_pair_apart_by_its_mismatch():
    feed = part("R1 resistor a b 6.81 kohm")
    up, down = (
        Part(feed.id, feed.kind, feed.a, feed.b, feed.value, skew=skew, match=0.004) for skew in (1, -1)
    )
    assert value_at(up, "skewed") - value_at(down, "skewed") == pytest.approx(0.004 * 6810)
    assert value_at(feed, "skewed") == 6810
