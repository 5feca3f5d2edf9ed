"""Supplies of two devices against each other: on, off, apart as far as tolerances let them be. Circuits of
two or three parts (derived)."""

from dataclasses import replace

import pytest
from bench import part
from box import BOND, DRIVE, hears, inlet, outlet, read, sends, stands


def most(found, quantity, **where):
    return max(
        r.value
        for r in found
        if r.quantity == quantity and all(getattr(r, name) == value for name, value in where.items())
    )


def test_one_supply_may_be_high_where_the_other_is_low(catalogue):
    """12 V +-1 V against 12 V +-1 V: 2 V over 2 ohm push 1 A into the lower one, whichever that is."""
    start = outlet(
        catalogue,
        DRIVE,
        "battery emf up stage 12 V +-1 V",
        "inner resistor up hot 1 ohm",
        BOND,
        sources=(sends(),),
    )
    target = inlet(
        catalogue,
        "battery emf up chassis 12 V +-1 V",
        "inner resistor up hot 1 ohm",
        BOND,
        listeners=(hears(),),
    )
    found = read(catalogue, start, target)
    for subject in ("from/battery", "into/battery"):
        assert most(found, "supply-fed-amps", subject=subject) == pytest.approx(1.0, rel=0.02)


@pytest.mark.parametrize("setting", [0, 1])
def test_the_rail_of_a_supply_that_is_off_may_be_let_go(catalogue, setting):
    """12 V behind 10 kohm on a rail behind 10 kohm: with that rail at 12 V, 12 V; with it at 0 V, 6 V; let
    go, 12 V again. Nobody can tell which, so the part between is judged by 12 V."""
    start = outlet(
        catalogue,
        DRIVE,
        "battery emf up stage 12 V",
        "inner resistor up hot 10 kohm",
        BOND,
        sources=(sends(),),
    )
    target = inlet(
        catalogue,
        "rail emf rail chassis 12 V",
        "feed resistor rail hot 10 kohm",
        BOND,
        listeners=(hears(),),
        supply="feed",
        limits=[stands(catalogue, "volts", ("hot", "chassis"), 50.0, 50.0)],
    )
    assert most(
        read(catalogue, start, target), "part-volts", setting=setting, state="settled"
    ) == pytest.approx(12.0, rel=1e-3)


def test_the_rail_of_a_supply_that_is_off_may_lie_at_nothing(catalogue):
    """12 V over 10 kohm and the 10 kohm of that rail: 0.6 mA, which would not flow were it let go."""
    start = outlet(
        catalogue,
        DRIVE,
        "battery emf up stage 12 V",
        "inner resistor up hot 10 kohm",
        BOND,
        sources=(sends(),),
    )
    target = inlet(
        catalogue,
        "rail emf rail chassis 12 V",
        "feed resistor rail hot 10 kohm",
        BOND,
        listeners=(hears(),),
        supply="feed",
        limits=[stands(catalogue, "amps", "feed", 50.0, 50.0)],
    )
    found = read(catalogue, start, target)
    assert most(found, "part-amps", setting=0, state="settled") == pytest.approx(0.0, abs=1e-9)
    assert most(found, "part-amps", setting=1, state="settled") == pytest.approx(0.6e-3, rel=1e-3)


def test_feeds_that_do_not_match_send_current_through_a_coil_between_them(catalogue):
    """48 V through 10 kohm, 1 % more and 1 % less, and 10 kohm to earth on either leg: 24 V less and more
    0.12 V, 0.24 V between the legs behind 10 kohm. A coil of 2 kohm beside takes 0.24 V / 12 kohm = 20 uA."""
    feeds = [
        replace(part(f"feed-{leg} resistor rail {leg} 10 kohm"), skew=skew, match=0.02)
        for leg, skew in (("hot", 1), ("cold", -1))
    ]
    coil = replace(part("coil resistor hot cold 2 kohm"), coil="voice coil")
    start = outlet(catalogue, DRIVE, "build-out resistor stage hot 100 Mohm", coil, BOND, sources=(sends(),))
    earths = [f"earth-{leg} resistor {leg} chassis 10 kohm" for leg in ("hot", "cold")]
    target = inlet(
        catalogue, "rail emf rail chassis 48 V", *feeds, *earths, BOND, listeners=(hears(),), supply="phantom"
    )
    assert most(read(catalogue, start, target), "coil-amps", setting=0) == pytest.approx(20e-6, rel=0.01)


def test_what_a_device_sends_through_its_own_part_is_its_makers_affair(catalogue):
    """What its output resistor stands nobody has said; it was built for 10 V of its own, but not for the 10 V
    that come from a neighbour's."""

    def unrated(other):
        start = outlet(
            catalogue,
            DRIVE,
            "build-out resistor stage hot 100 ohm",
            BOND,
            sources=(sends(maximum=10.0, nominal=10.0),),
            limits=[stands(catalogue, "amps", "build-out", None)],
        )
        target = inlet(
            catalogue,
            "strange emf tone chassis 0 V",
            "load resistor tone hot 1 kohm",
            BOND,
            listeners=(hears(),),
            sources=other,
        )
        return [
            r.value
            for r in read(catalogue, start, target)
            if r.quantity == "unrated-amps" and r.state == "settled"
        ]

    assert unrated(()) == []
    assert unrated((sends(emf="strange", maximum=11.0 / 2**0.5),)) == pytest.approx([0.01], rel=1e-3)
