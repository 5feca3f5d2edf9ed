"""The working of connections so small that one sees every number at a glance (derived): what the meter shows,
what flows where, what is written beside."""

import json
from dataclasses import replace

import pytest
from bench import part as drawn
from box import BOND, DRIVE, explained, hears, inlet, judged, lead, outlet, sends

from generator.engine.told import told

SOURCE = DRIVE, "build-out resistor stage hot 100 ohm", BOND


def part(working, name):
    [found] = [part for part in working.parts if part.id == name]
    return found


@pytest.fixture
def too_hot(catalogue):
    """4 V behind 100 ohm into 100 ohm are 2 V, and the input takes 1 V."""
    start = outlet(catalogue, *SOURCE, sources=(sends(maximum=4.0, nominal=1.0),))
    target = inlet(
        catalogue, "load resistor hot chassis 100 ohm", BOND, listeners=(hears(maximum=1.0, sensitivity=0.1),)
    )
    return explained(catalogue, start, target, finding="too-hot")


def test_a_signal_is_shown_at_the_level_that_decides(too_hot):
    """4 V over 200 ohm: 20 mA through both resistors, 2 V across each."""
    assert too_hot.level == 4.0 and too_hot.hertz == 1000
    for name in ("from/build-out", "into/load"):
        assert abs(part(too_hot, name).amps) == pytest.approx(0.02, rel=1e-3)
        assert abs(part(too_hot, name).volts) == pytest.approx(2.0, rel=1e-3)
    assert part(too_hot, "from/drive").value == "4 V"


def test_an_ohmmeter_sends_a_milliampere_in_at_the_outlet(catalogue):
    """common practice: ohmmeters test with 1 mA or less. 100 ohm between the two chassis drop 0.1 V, the
    outlet's above the inlet's."""
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage hot 100 ohm",
        "lift resistor screen chassis 100 ohm",
        sources=(sends(),),
    )
    target = inlet(catalogue, "load resistor hot chassis 10 kohm", BOND, listeners=(hears(),))
    working = explained(catalogue, start, target, lead(catalogue, "1", "2"), finding="screen-open")
    lift, meter = part(working, "from/lift"), part(working, "meter")
    assert (meter.value, meter.decides) == ("1 mA", True)
    assert meter.volts == pytest.approx(0.1, rel=0.02) and lift.volts == pytest.approx(-0.1, rel=0.02)
    assert lift.amps == pytest.approx(-0.001, rel=0.02) and meter.amps == pytest.approx(-0.001)
    assert working.equation.sum == pytest.approx(0, abs=1e-9)


def test_where_nothing_speaks_against_it_the_signal_is_shown_whatever_there_is_to_note(catalogue):
    """A capacitor takes its time to charge, which is worth a note; 1 V behind 100 ohm
    into 100 kohm arrives."""
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage inner 100 ohm",
        "couple capacitor inner hot 100 uF",
        "bleed resistor inner chassis 10 kohm",
        BOND,
        sources=(sends(nominal=1.0, maximum=4.0),),
    )
    target = inlet(
        catalogue,
        "rail emf rail chassis 12 V",
        "feed resistor rail hot 6.81 kohm",
        "couple capacitor hot in 10 uF",
        "load resistor in chassis 100 kohm",
        BOND,
        supply="phantom",
        listeners=(hears(between=("in", "chassis"), maximum=10.0, sensitivity=1.0),),
    )
    verdict, working = judged(catalogue, start, target), explained(catalogue, start, target)
    assert (verdict.verdict, [finding.severity for finding in verdict.findings]) == ("safe", ["note"])
    assert (working.finding, working.quantity) == ("", "path-gain")


def test_what_does_not_matter_is_left_out(catalogue):
    """10 Mohm across 100 ohm changes nothing; a second load of 1 kohm does."""
    start = outlet(catalogue, *SOURCE, sources=(sends(maximum=4.0, nominal=1.0),))
    target = inlet(
        catalogue,
        "load resistor hot chassis 100 ohm",
        "beside resistor hot chassis 1 kohm",
        "nothing resistor hot chassis 10 Mohm",
        BOND,
        listeners=(hears(maximum=1.0, sensitivity=0.1),),
    )
    working = explained(catalogue, start, target, finding="too-hot")
    shown = {p.id for p in working.parts if p.kind == "resistor"}
    assert (shown, working.left_out) == ({"from/build-out", "into/load", "into/beside"}, 1)


def test_of_very_many_parts_the_heaviest_are_shown(catalogue):
    """Thirteen loads, one of them ten times as heavy as the rest."""
    many = [f"load{i} resistor hot chassis {10 if i < 12 else 1} kohm" for i in range(13)]
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage hot 1 kohm",
        BOND,
        sources=(sends(maximum=40.0, nominal=1.0),),
    )
    target = inlet(catalogue, *many, BOND, listeners=(hears(maximum=1.0, sensitivity=0.1),))
    working = explained(catalogue, start, target, finding="too-hot")
    assert {"from/build-out", "into/load12"} <= {p.id for p in working.parts}
    assert working.left_out > 0


def test_a_source_that_is_not_asked_about_is_silent(catalogue):
    """Left and right on one contact: while left is heard, right is a resistor to nothing."""
    start = outlet(
        catalogue,
        *SOURCE,
        "drive-right emf stage-right chassis 0 V",
        "build-out-right resistor stage-right hot 100 ohm",
        sources=(
            sends("left", maximum=4.0, nominal=1.0),
            sends("right", emf="drive-right", maximum=4.0, nominal=1.0),
        ),
    )
    target = inlet(
        catalogue, "load resistor hot chassis 100 ohm", BOND, listeners=(hears(maximum=1.0, sensitivity=0.1),)
    )
    working = explained(catalogue, start, target, finding="too-hot")
    assert (part(working, "from/drive").value, part(working, "from/drive-right").value) == ("4 V", "silent")


def test_a_current_is_shown_at_the_tolerances_it_was_found_at(catalogue):
    """A stage of 10 ohm matched to 20 % is 9 ohm where it gives most: 10 V over it and 91 ohm are 100 mA."""
    uneven = replace(drawn("build-out resistor stage hot 10 ohm"), skew=-1, match=0.2)
    start = outlet(catalogue, DRIVE, uneven, BOND, sources=(sends(maximum=10.0, nominal=1.0),))
    target = inlet(
        catalogue,
        "load resistor hot chassis 91 ohm",
        BOND,
        listeners=(hears(maximum=100.0, sensitivity=0.1),),
    )
    working = explained(catalogue, start, target, finding="output-strained")
    assert (
        working.value == pytest.approx(0.1, rel=1e-3)
        and working.corner == "matched pairs as far apart as they may be"
    )
    assert abs(part(working, "from/drive").amps) == pytest.approx(working.value)


def test_the_limit_is_told_as_the_most_or_the_least(too_hot, catalogue):
    assert "no more than" in told(too_hot) and "no less than" not in told(too_hot)
    start = outlet(
        catalogue,
        DRIVE,
        "build-out resistor stage hot 100 kohm",
        BOND,
        sources=(sends(maximum=10.0, nominal=1.0, least_load=1e6),),
    )
    target = inlet(
        catalogue,
        "load resistor hot chassis 100 kohm",
        BOND,
        listeners=(hears(maximum=100.0, sensitivity=0.1),),
    )
    assert "100 kΩ; no less than 1 MΩ is wanted" in told(
        explained(catalogue, start, target, finding="loaded-down")
    )


def test_what_is_published_is_what_json_gives_back(too_hot):
    assert too_hot.as_data() == json.loads(json.dumps(too_hot.as_data()))
