"""The working behind a number: the same number found again, currents that add up to nothing, and the circuit
a teacher would draw."""

import json

import pytest

from generator.engine import judge
from generator.engine.assemble import assemble, ways
from generator.engine.constants import TEST_AMPS
from generator.engine.explain import explain
from generator.engine.judge import read
from generator.engine.rulebook import rules
from generator.engine.slices import case_of
from generator.engine.told import told

LINE_INTO_PHANTOM = ("mixer-line-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr")


# a connection for every rule, so that every quantity is met whatever the catalogue holds
KNOWN = [
    (start, tuple(through), target)
    for start, *through, target in dict.fromkeys(rule.met_by for rule in rules() if rule.met_by)
]


def near(value):
    return pytest.approx(value, rel=1e-9, abs=1e-9)


def part(working, name):
    return next(part for part in working.parts if part.name == name)


def test_the_slice_of_a_reading_shows_its_number(catalogue):
    """Solved again, the one case a reading was found in reads on its meter what the reading is made of."""
    seen = set()
    for start, through, target in KNOWN:
        outlet, inlet, leads = (
            catalogue.ports[start],
            catalogue.ports[target],
            [catalogue.leads[name] for name in through],
        )
        way = ways(catalogue, outlet, leads, inlet)[0]
        assembly, told_once = assemble(catalogue, outlet, leads, inlet, way), set()
        for reading in read(catalogue, outlet, leads, inlet, way):
            kind = reading.quantity, reading.state, reading.at and reading.at.nature
            if reading.at is None or kind in told_once:
                continue
            told_once.add(kind)
            shown = metered(case_of(assembly, reading), reading)
            if shown is not None:
                assert shown[0] == pytest.approx(shown[1], rel=1e-6, abs=2e-6), (
                    start,
                    through,
                    target,
                    reading,
                )
                seen.add(kind[0])
    assert {
        "part-volts",
        "part-amps",
        "supplied-volts",
        "surge-amps",
        "discharge-amps",
        "settle-seconds",
        "path-gain",
        "over-level",
        "load-ohm",
        "hum-rejection",
        "hum-below",
        "polarity",
        "screen-ohm",
        "treble",
        "side-gain",
        "driven-amps",
    } <= seen


TERM_ON_METER = {
    "surge-amps": 0,
    "path-gain": 0,
    "side-gain": 0,
    "over-level": 1,
    "shout-level": 1,
    "under-level": 1,
    "treble": 0,
    "bass": 0,
    "pickup-treble": 0,
    "hum-rejection": 0,
    "crosstalk": 0,
    "mono-sum": 0,
    "load-drop": 1,
}


def metered(case, reading):
    """What the meter of a case reads, and what the reading says it should; None where sums of
    several cases decide."""
    across = (
        case.volts(*case.decides)
        if isinstance(case.decides, tuple)
        else case.amps[case.circuit.index[case.decides]]
    )
    if reading.quantity == "supply-fed-amps" and not reading.value:
        return None  # it gives current; only what is pushed back into it is told
    if reading.quantity == "hum-below":
        (_, wanted, _), (_, told, _) = reading.terms
        # 100 dB below the wanted signal nobody hears it: less is told as that
        return max(abs(across), wanted * 10 ** (-100 / 20)), told
    if reading.quantity in TERM_ON_METER:
        return abs(across), reading.terms[TERM_ON_METER[reading.quantity]][1]
    if reading.quantity in ("polarity", "polarity-turned"):
        return across.real, reading.terms[0][1]
    if reading.quantity == "screen-ohm" and not reading.terms:
        return abs(case.level), 0.0  # nothing joins the two: no test current
    if reading.quantity in ("screen-ohm", "settle-seconds"):
        return abs(across) / TEST_AMPS, reading.terms[0 if reading.quantity == "screen-ohm" else 1][1]
    if reading.quantity == "load-ohm" or len(reading.terms) > 1 or reading.quantity.endswith("watts"):
        return (1.0, 1.0) if reading.quantity == "load-ohm" and case.level else None
    if reading.quantity.endswith(("volts", "reverse")) and isinstance(case.decides, str):
        a, b = case.circuit.ends[case.circuit.index[case.decides]]
        across = case.unknowns[a] - case.unknowns[b]
    return abs(across), abs(reading.value)


def test_every_finding_is_explained_with_its_own_number_and_limit(catalogue):
    natures = set()
    for start, through, target in KNOWN:
        for finding in judge(catalogue, start, through, target).findings:
            working = explain(catalogue, start, through, target, finding.id)
            first = next(f for f in judge(catalogue, start, through, target).findings if f.id == finding.id)
            assert (working.value, working.limit, working.evidence, working.cite) == (
                first.value,
                first.limit,
                first.evidence,
                first.cite,
            )
            natures.add(working.nature)
            json.dumps(working.as_data(), allow_nan=False)
            assert told(working)
    assert {"direct", "signal", "test", "rule"} <= natures


def test_currents_of_every_deciding_net_sum_to_nothing(catalogue):
    checked = 0
    for pairing in KNOWN:
        equation = explain(catalogue, *pairing).equation
        if equation is None:
            continue
        largest = max((abs(complex(a, b)) for a, b in zip(equation.amps, equation.across)), default=0.0)
        assert equation.sum <= 1e-6 * largest + 1e-9, (pairing, equation)
        checked += largest > 1e-9
    assert checked > 20


def test_a_line_output_gets_the_phantom_rail_through_one_feed_resistor(catalogue):
    # 52 V, 6.81 kohm less 20 %, 47 kohm beside the output: 52 x 47 / (47 + 5.448) = 46.6 V (Kirchhoff); the
    # highest the standard allows.
    working = explain(catalogue, *LINE_INTO_PHANTOM)
    assert (working.finding, working.state, working.setting) == (
        "over-volts",
        "settled",
        {"phantom 48 V": "on"},
    )
    capacitor = part(working, "output capacitor of the hot leg")
    assert capacitor.decides and abs(capacitor.volts) == pytest.approx(52 * 47 / (47 + 5.448), rel=1e-4)
    assert part(working, "feed resistor of the hot leg").volts == pytest.approx(
        52 - 52 * 47 / (47 + 5.448), rel=1e-4
    )
    assert sum(term.value for term in working.terms) == near(working.value)
    assert "Mixer line output 2 (hot)" in next(net for net in working.nets if net.name == "hot").nodes
    assert "Mixer line output 2 (hot) meets XLR female to the source 2" in working.touching
    assert {p.name for p in working.parts} == {
        "signal source",
        "build out hot",
        "output capacitor of the hot leg",
        "bleed hot",
        "phantom 48 V",
        "feed resistor of the hot leg",
    }


def test_a_joined_leg_sends_phantom_through_the_voice_coil(catalogue):
    # 52 V through 5.448 kohm and 200 ohm: 9.2 mA
    working = explain(catalogue, "mic-dynamic-xlr", ("xlr-f-to-635-ts-3-to-1",), "mixer-mic-in-p48-635")
    assert working.finding == "over-current"
    coil = part(working, "voice coil")
    assert coil.decides and abs(coil.amps) == pytest.approx(52 / 5648, rel=1e-3)
    assert "chassis = cold" in {net.name for net in working.nets}


def test_a_chosen_finding_is_shown_instead(catalogue):
    working = explain(catalogue, *LINE_INTO_PHANTOM, finding="too-hot")
    assert working.nature == "signal" and working.hertz == 1000 and working.source == "Mixer line output"
    assert all(len(net.gains) == 3 for net in working.nets)


def test_a_safe_connection_shows_how_the_signal_arrives(catalogue):
    working = explain(catalogue, "mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr")
    assert (working.verdict, working.finding, working.quantity) == ("safe", "", "path-gain")
    assert any(part.kind == "meter" and part.decides for part in working.parts)


def test_what_no_circuit_decides_says_so(catalogue):
    working = explain(catalogue, "digital-out-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr", "other-kind")
    assert (
        working.nature == "rule"
        and working.note == "No voltage or current decides this; it follows from what the two devices are."
    )


def test_halves_that_do_not_fit_have_no_working(catalogue):
    with pytest.raises(
        ValueError, match=r"^The halves do not go into each other: there is no circuit to work out\.$"
    ):
        explain(catalogue, "mixer-line-out-xlr", (), "player-line-out-35")


def test_a_finding_that_was_not_made_is_refused_with_those_that_were(catalogue):
    with pytest.raises(
        ValueError, match=r"^'dull' is not a finding of this connection; its findings: over-volts, "
    ):
        explain(catalogue, *LINE_INTO_PHANTOM, finding="dull")
    with pytest.raises(KeyError):
        explain(catalogue, "no-such-port", (), "mixer-line-in-xlr")


def test_plain_text_names_case_nets_parts_currents_and_limit(catalogue):
    words = told(explain(catalogue, *LINE_INTO_PHANTOM))
    for line in (
        "WORKING  over-volts",
        "    supplies: phantom 48 V on",
        "    hot: 46.6 V, joins Mixer line output 2 (hot)",
        "feed resistor of the hot leg of Mixer microphone input, 5.45 kΩ, rail to hot: 5.4 V,",
        "    Currents at hot sum to zero: 991 µA out",
        "    47 V; no more than 6.3 V is wanted",
        "(published; Aluminium electrolytic capacitors, series tables",
    ):
        assert line in words
    assert max(map(len, words.splitlines())) <= 96
