"""Wires held against published tables: which contact a lead joins to which, and what
copper of a gauge resists."""

import pytest

from generator.catalogue import default_directory, loader
from generator.catalogue.nodes import plain
from generator.catalogue.problems import Problems
from generator.catalogue.quantity import parse

# hdmi-pin-table, and hdmi-sizes-table for the contact of the mini plug each is joined to
LARGE_TO_MINI = {
    1: 2,
    2: 1,
    3: 3,
    4: 5,
    5: 4,
    6: 6,
    7: 8,
    8: 7,
    9: 9,
    10: 11,
    11: 10,
    12: 12,
    13: 14,
    14: 17,
    15: 15,
    16: 16,
    17: 13,
    18: 18,
    19: 19,
}
# hdmi-four-sizes-table: the contact of the micro plug
LARGE_TO_MICRO = {
    1: 3,
    2: 4,
    3: 5,
    4: 6,
    5: 7,
    6: 8,
    7: 9,
    8: 10,
    9: 11,
    10: 12,
    11: 13,
    12: 14,
    13: 15,
    14: 2,
    15: 17,
    16: 18,
    17: 16,
    18: 19,
    19: 1,
}
LARGE = [
    "data-2-plus",
    "data-2-screen",
    "data-2-minus",
    "data-1-plus",
    "data-1-screen",
    "data-1-minus",
    "data-0-plus",
    "data-0-screen",
    "data-0-minus",
    "clock-plus",
    "clock-screen",
    "clock-minus",
    "control",
    "spare",
    "list-clock",
    "list-data",
    "common",
    "supply",
    "detect",
]


def test_pictures_have_nineteen_contacts_in_the_published_order(catalogue):
    carries = catalogue.assignments["hdmi-video"].carries
    assert [carries[str(number)] for number in range(1, 20)] == LARGE


def test_the_small_picture_plug_meets_the_large_one_as_published(catalogue):
    large, small = (catalogue.assignments[f"hdmi{size}-video"].carries for size in ("", "-mini"))
    assert {large[str(one)]: str(other) for one, other in LARGE_TO_MINI.items()} == {
        role: contact for contact, role in small.items()
    }
    joined = {join.id: set(join.nodes) for join in catalogue.leads["hdmi-mini-to-hdmi"].joins}
    assert set(map(frozenset, joined.values())) == {
        frozenset((f"a.{other}", f"b.{one}")) for one, other in LARGE_TO_MINI.items()
    }


def test_the_smallest_picture_plug_meets_the_large_one_as_published(catalogue):
    large, small = (catalogue.assignments[f"hdmi{size}-video"].carries for size in ("", "-micro"))
    assert {large[str(one)]: str(other) for one, other in LARGE_TO_MICRO.items()} == {
        role: contact for contact, role in small.items()
    }
    joined = {frozenset(join.nodes) for join in catalogue.leads["hdmi-micro-to-hdmi"].joins}
    assert joined == {frozenset((f"a.{other}", f"b.{one}")) for one, other in LARGE_TO_MICRO.items()}


# wire-resistance-table: gauge: ohm per 100 feet
OHM_PER_100_FEET = {14: 0.2525, 20: 1.015, 22: 1.614, 24: 2.567, 26: 4.081, 28: 6.49}
GAUGES = {  # as the notes of the cables have it
    "loudspeaker-pair": 14,
    "power-four-core": 20,
    "coax-50-ohm": 20,
    "coax-75-ohm": 22,
    "mic-pair": 24,
    "digital-pair-110-ohm": 24,
    "network-pair": 24,
    "lighting-pair-120-ohm": 24,
    "unbalanced-coax": 24,
    "usb-data": 24,
    "midi-pair": 26,
    "headphone-multicore": 28,
    "video-pairs": 28,
}


@pytest.mark.parametrize("id", GAUGES)
def test_a_core_has_the_resistance_of_its_gauge(id):
    cable = plain(loader.read(default_directory() / "cables" / f"{id}.yaml", id, Problems()))
    assert parse(cable["core"]).nominal == pytest.approx(OHM_PER_100_FEET[GAUGES[id]] / 30.48, rel=0.005)
