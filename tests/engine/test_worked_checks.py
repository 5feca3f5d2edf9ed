"""Numbers worked out by hand or printed somewhere, found again by the engine: parts in,
currents and levels out.

Each line: what is asked, where the expected number comes from, the number, and the circuit that answers it.
Ids in square brackets stand in pinouts/sources.yaml. Held to half a per cent, or to 0.05 dB.
"""

import pytest
from bench import circuit, volts
from checks_of_levels import LEVELS
from checks_of_power import POWER

CHECKS = [*POWER, *LEVELS]


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: f"{check.asked} ({check.source})")
def test_worked_check(catalogue, check):
    found = check.found(catalogue)
    assert found == (
        pytest.approx(check.expected, abs=0.05)
        if check.unit == "dB"
        else pytest.approx(check.expected, rel=0.005)
    )


def test_a_button_of_no_resistance_leaves_no_volts():
    """published: function A is 0 ohm [phone-headset-spec]."""
    assert volts(
        circuit("E1 emf rail 0 2.2 V", "R1 resistor rail mic 2.2 kohm", "J1 wire mic 0"), "mic"
    ) == pytest.approx(0.0, abs=1e-12)
