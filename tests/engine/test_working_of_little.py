"""The working of connections so small that one sees every number at a glance (derived): what the meter shows, what flows where, what is written beside."""

import pytest
from box import BOND, explained, hears, inlet, judged, lead, outlet, sends

SOURCE = "drive emf stage chassis 0 V", "build-out resistor stage hot 100 ohm", BOND


def part(working, name):
    [found] = [part for part in working.parts if part.id == name]
    return found


@pytest.fixture
def too_hot(catalogue):
    """4 V behind 100 ohm into 100 ohm are 2 V, and the input takes 1 V."""
    start = outlet(catalogue, *SOURCE, sources=(sends(maximum=4.0, nominal=1.0),))
    target = inlet(catalogue, "load resistor hot chassis 100 ohm", BOND, listeners=(hears(maximum=1.0, sensitivity=0.1),))
    return explained(catalogue, start, target, finding="too-hot")


def test_a_signal_is_shown_at_the_level_that_decides(too_hot):
    """4 V over 200 ohm: 20 mA through both resistors, 2 V across each."""
    assert too_hot.level == 4.0 and too_hot.hertz == 1000
    for name in ("from/build-out", "into/load"):
        assert abs(part(too_hot, name).amps) == pytest.approx(0.02, rel=1e-3)
        assert abs(part(too_hot, name).volts) == pytest.approx(2.0, rel=1e-3)
    assert part(too_hot, "from/drive").value == "4 V"


def test_an_ohmmeter_sends_a_milliampere_in_at_the_outlet(catalogue):
    """common practice: ohmmeters test with 1 mA or less. 100 ohm between the two chassis drop 0.1 V, the outlet's above the inlet's."""
    start = outlet(catalogue, "drive emf stage chassis 0 V", "build-out resistor stage hot 100 ohm", "lift resistor screen chassis 100 ohm", sources=(sends(),))
    target = inlet(catalogue, "load resistor hot chassis 10 kohm", BOND, listeners=(hears(),))
    working = explained(catalogue, start, target, lead(catalogue, "1", "2"), finding="screen-open")
    lift, meter = part(working, "from/lift"), part(working, "meter")
    assert (meter.value, meter.decides) == ("1 mA", True)
    assert meter.volts == pytest.approx(0.1, rel=0.02) and lift.volts == pytest.approx(-0.1, rel=0.02)
    assert lift.amps == pytest.approx(-0.001, rel=0.02) and meter.amps == pytest.approx(-0.001)
    assert working.equation.sum == pytest.approx(0, abs=1e-9)


def test_where_nothing_speaks_against_it_the_signal_is_shown_whatever_there_is_to_note(catalogue):
    """A capacitor takes its time to charge, which is worth a note; 1 V behind 100 ohm into 100 kohm arrives."""
    start = outlet(catalogue, "drive emf stage chassis 0 V", "build-out resistor stage inner 100 ohm", "couple capacitor inner hot 100 uF",
                   "bleed resistor inner chassis 10 kohm", BOND, sources=(sends(nominal=1.0, maximum=4.0),))
    target = inlet(catalogue, "rail emf rail chassis 12 V", "feed resistor rail hot 6.81 kohm", "couple capacitor hot in 10 uF", "load resistor in chassis 100 kohm",
                   BOND, listeners=(hears(between=("in", "chassis"), maximum=10.0, sensitivity=1.0),), supply="phantom")
    verdict, working = judged(catalogue, start, target), explained(catalogue, start, target)
    assert (verdict.verdict, [finding.severity for finding in verdict.findings]) == ("safe", ["note"])
    assert (working.finding, working.quantity) == ("", "path-gain")
