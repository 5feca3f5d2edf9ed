"""Parts, limits and ends that no file may have: refused with their place and reason."""

import pytest
from catalogue import tiny

from generator.catalogue.lint import lint

NOT_A_QUANTITY = (
    "is not a quantity; write a number and a unit (6.81 kohm), a range (44..52 V), a tolerance (48 V +-4 V, "
    "6.81 kohm +-20 %) or `unknown`."
)


@pytest.fixture
def faults(tmp_path, monkeypatch):
    """The faults of the tiny catalogue after one edit."""
    monkeypatch.chdir(tmp_path)
    directory = tiny.write(tmp_path)

    def faults(name, old, new):
        path = directory / name
        assert path.read_text().count(old) == 1
        path.write_text(path.read_text().replace(old, new))
        return [str(problem) for problem in lint(directory)]

    return faults


@pytest.mark.parametrize(
    "written, why",
    [
        ("nan kohm", f"bad-quantity]\n    'nan kohm' {NOT_A_QUANTITY}"),
        ("inf ohm", f"bad-quantity]\n    'inf ohm' {NOT_A_QUANTITY}"),
        ("1e999 ohm", "bad-quantity]\n    '1e999 ohm' is too large to be a quantity."),
        ("1e-999 ohm", "non-positive]\n    '1e-999 ohm' is not above zero; a resistance must be."),
        ("0 ohm", "non-positive]\n    '0 ohm' is not above zero; a resistance must be."),
        ("-2 kohm", "non-positive]\n    '-2 kohm' is not above zero; a resistance must be."),
        ("2 kohm +-100 %", "non-positive]\n    '2 kohm +-100 %' is not above zero; a resistance must be."),
        ("0..2 kohm", "non-positive]\n    '0..2 kohm' is not above zero; a resistance must be."),
        ("unknown", "not-unknown]\n    'resistor' cannot be unknown: the circuit could not be solved."),
    ],
)
def test_a_resistance_nothing_can_have_is_refused(faults, written, why):
    assert faults("circuits/input.yaml", "resistor: 2 kohm", f"resistor: {written}") == [
        f"pinouts/circuits/input.yaml:12:20: error[{why}"
    ]


@pytest.mark.parametrize(
    "name, old, new, why",
    [
        (
            "input",
            "capacitor: 47 uF",
            "capacitor: 0 uF",
            "11:23: error[non-positive]\n    '0 uF' is not above zero; a capacitance must be.",
        ),
        (
            "output",
            "prim: {inductor: 1 H",
            "prim: {inductor: -1 H",
            "5:20: error[non-positive]\n    '-1 H' is not above zero; an inductance must be.",
        ),
        (
            "output",
            "k: 0.999",
            "k: 1",
            "8:33: error[bad-coupling]\n    'k' is 1; it must lie between 0 and 1, both excluded.",
        ),
        (
            "output",
            "k: 0.999",
            "k: nan",
            "8:33: error[bad-number]\n    'nan' is not a number; write 0.5, -1 or 1/2200.",
        ),
        ("input", "48 V +-4 V", "inf V", f"4:18: error[bad-quantity]\n    'inf V' {NOT_A_QUANTITY}"),
        ("input", "volts: 63 V", "volts: inf V", f"19:60: error[bad-quantity]\n    'inf V' {NOT_A_QUANTITY}"),
        (
            "input",
            "volts: 63 V",
            "volts: -63 V",
            "19:60: error[non-positive]\n    '-63 V' is below zero; a voltage must not be.",
        ),
        (
            "input",
            "between: [in-hot, cold]}\n  bond",
            "between: [cold, cold]}\n  bond",
            "12:37: error[joined-to-itself]\n    part 'load' stands between 'cold' and itself.",
        ),
    ],
)
def test_other_impossible_parts_and_limits_are_refused(faults, name, old, new, why):
    assert faults(f"circuits/{name}.yaml", old, new) == [f"pinouts/circuits/{name}.yaml:{why}"]


THIRD_END = "  b: {connector: round, half: male, label: round plug, usual: desk-in}\n"


@pytest.mark.parametrize(
    "old, new, why",
    [
        (
            "  screen: [a.sleeve, b.1]\n",
            "  screen: [a.sleeve, b.1, c.1]\n",
            "9:27: error[unknown-end]\n    'c' is not an end of this lead; it has a, b.",
        ),
        (
            THIRD_END,
            THIRD_END + "  c: {connector: round, half: male, label: spare, usual: desk-inn}\n",
            "6:58: error[unknown-port]\n    there is no port 'desk-inn'. Did you mean 'desk-in'?",
        ),
        (THIRD_END, "", "4:3: error[too-few]\n    'ends' has 1 of at least 2 entries."),
    ],
)
def test_a_lead_with_a_missing_or_unknown_end_is_refused(faults, old, new, why):
    assert faults("leads/straight.yaml", old, new) == [f"pinouts/leads/straight.yaml:{why}"]
