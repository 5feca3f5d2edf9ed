"""What no circuit can be: a file with it is refused with its place and reason, and a record with it that got
past the files is told as not solved, which is dangerous. Never a crash, never safe."""

import math
import warnings
from dataclasses import replace

import pytest
from catalogue import tiny

from generator.catalogue.lint import lint
from generator.catalogue.records import Coupling, Limit, Part, Quantity
from generator.engine import judge

MICROPHONE, LEAD, INPUT = "mic-condenser-p48-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"
NOT_A_QUANTITY = (
    "is not a quantity; write a number and a unit (6.81 kohm), a range (44..52 V), a tolerance (48 V +-4 V, "
    "6.81 kohm +-20 %) or `unknown`."
)
IMPOSSIBLE = [math.nan, math.inf, -math.inf, 0.0, -100.0]


# Files


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


# Records that never were files


@pytest.fixture
def changed(catalogue):
    """The catalogue with a port's network or fields changed."""

    def changed(port, parts=None, **fields):
        record = catalogue.ports[port]
        if parts:
            record = replace(
                record,
                network=replace(record.network, parts=tuple(parts(part) for part in record.network.parts)),
            )
        return replace(catalogue, ports={**catalogue.ports, port: replace(record, **fields)})

    return changed


def value(number, unit="ohm"):
    return Quantity(number, number, number, unit, f"{number} {unit}")


def judged(catalogue, through=(LEAD,)):
    with warnings.catch_warnings():
        warnings.simplefilter("error")  # nothing is divided by zero on the way
        return judge(catalogue, MICROPHONE, through, INPUT)


def told(verdict):
    """What the only finding says; it must be that nothing could be worked out."""
    [finding] = verdict.findings
    assert (finding.id, finding.severity, verdict.verdict) == ("not-solved", "dangerous", "dangerous")
    assert finding.remedy == "Do not connect it on the strength of this page; report it."
    assert all(found == "dangerous" for _, found in verdict.settings)
    return finding.says


def test_the_connection_is_safe_before_anything_is_changed(catalogue):
    assert judged(catalogue).verdict == "safe"


@pytest.mark.parametrize("number", IMPOSSIBLE)
@pytest.mark.parametrize(
    "port, part", [(INPUT, "main.load"), (INPUT, "main.couple-hot"), (MICROPHONE, "main.build-out-hot")]
)
def test_a_resistor_or_capacitor_of_nothing_is_not_solved(changed, port, part, number):
    broken = changed(port, lambda p: replace(p, value=value(number, p.value.unit)) if p.id == part else p)
    place = "into" if port == INPUT else "from"
    assert (
        told(judged(broken))
        == f"This connection could not be worked out: part '{place}/{part}' has no possible value."
    )


@pytest.mark.parametrize(
    "change",
    [
        {"value": None},
        {"value": replace(value(6810.0), low=0.0)},
        {"value": replace(value(6810.0), high=math.inf)},
        {"match": 2.0},
        {"match": math.nan},
    ],
    ids=str,
)
def test_a_part_impossible_at_one_corner_is_not_solved(changed, change):
    broken = changed(INPUT, lambda p: replace(p, **change) if p.id == "main.feed-hot" else p)
    assert (
        told(judged(broken))
        == "This connection could not be worked out: part 'into/main.feed-hot' has no possible value."
    )


@pytest.mark.parametrize("number", [math.nan, math.inf])
def test_a_supply_of_no_known_volts_is_not_solved(changed, number):
    broken = changed(INPUT, lambda p: replace(p, value=value(number, "V")) if p.id == "main.rail" else p)
    assert (
        told(judged(broken))
        == "This connection could not be worked out: part 'into/main.rail' has no possible value."
    )


@pytest.mark.parametrize(
    "change",
    [{"knee": knee} for knee in (None, *IMPOSSIBLE)]
    + [{"value": value(-0.003, "A")}, {"value": value(math.nan, "A")}],
    ids=str,
)
def test_a_sink_without_a_bend_is_not_solved(changed, change):
    broken = changed(MICROPHONE, lambda p: replace(p, **change) if p.kind == "sink" else p)
    assert (
        told(judged(broken))
        == "This connection could not be worked out: part 'from/main.electronics' has no possible value."
    )


@pytest.mark.parametrize("series", [None, *IMPOSSIBLE])
def test_a_clamp_without_series_resistance_is_not_solved(catalogue, changed, series):
    parts = (
        *catalogue.ports[INPUT].network.parts,
        Part("clamp", "clamp", "hot", "chassis", value(5.0, "V"), series=series),
    )
    broken = changed(INPUT, network=replace(catalogue.ports[INPUT].network, parts=parts))
    assert (
        told(judged(broken))
        == "This connection could not be worked out: part 'into/clamp' has no possible value."
    )


@pytest.mark.parametrize("k", [1.0, 0.0, -0.5, 1.5, math.nan])
def test_windings_that_share_more_than_all_are_not_solved(catalogue, changed, k):
    windings = tuple(Part(name, "inductor", name, "chassis", value(1.0, "H")) for name in ("one", "two"))
    network = catalogue.ports[INPUT].network
    broken = changed(
        INPUT,
        network=replace(network, parts=(*network.parts, *windings), couplings=(Coupling("one", "two", k),)),
    )
    assert told(judged(broken)) == (
        "This connection could not be worked out: windings 'into/one' and 'into/two' have no possible "
        "coupling."
    )


def test_two_supplies_that_contradict_each_other_are_not_solved(catalogue, changed):
    """Nothing but two rails on one wire, one of 48 V and one of 12 V: their current
    would be without bounds."""
    network = catalogue.ports[INPUT].network
    other = Part("other", "emf", "main.rail", "chassis", value(12.0, "V"))
    broken = changed(INPUT, network=replace(network, parts=(*network.parts, other)))
    assert told(judged(broken)) == (
        "This connection could not be worked out: no single solution: a loop of emfs and windings without "
        "resistance."
    )


def test_a_supply_shorted_by_wire_is_not_solved(catalogue, changed):
    network = catalogue.ports[INPUT].network
    broken = changed(
        INPUT, network=replace(network, parts=(*network.parts, Part("short", "wire", "main.rail", "chassis")))
    )
    assert told(judged(broken)) == (
        "This connection could not be worked out: emf 'into/main.rail' is shorted by wire: both its ends are "
        "on one net."
    )


@pytest.mark.parametrize("number", [math.nan, math.inf])
def test_a_limit_that_nothing_can_reach_is_not_solved(catalogue, changed, number):
    """Held against it everything would pass."""
    network = catalogue.ports[INPUT].network
    limits = tuple(
        replace(limit, settled=number) if limit.id == "main.couple-hot" else limit for limit in network.limits
    )
    assert limits != network.limits
    broken = changed(INPUT, network=replace(network, limits=limits))
    assert (
        told(judged(broken))
        == "This connection could not be worked out: a reading or its limit is not a number."
    )


def test_a_limit_below_zero_is_always_passed(catalogue, changed):
    """So it is dangerous, for the careful side of wrong."""
    network = catalogue.ports[INPUT].network
    limits: tuple[Limit, ...] = tuple(replace(limit, settled=-1.0) for limit in network.limits)
    assert judged(changed(INPUT, network=replace(network, limits=limits))).verdict == "dangerous"


def test_a_need_that_is_no_number_is_not_solved(catalogue, changed):
    needs = tuple(replace(need, least=math.nan) for need in catalogue.ports[MICROPHONE].needs)
    assert needs
    assert (
        told(judged(changed(MICROPHONE, needs=needs)))
        == "This connection could not be worked out: a reading or its limit is not a number."
    )


def test_a_lead_that_shorts_both_ends_is_never_safe(catalogue):
    """All contacts of both plugs on one wire: phantom is shorted, which a feed of 6.81 kohm stands, and
    nothing is heard. Plugged with phantom on, the charged capacitors of the input are shorted as well:
    amperes, limited by little but the protecting resistor."""
    lead = catalogue.leads[LEAD]
    contacts = [f"{end}.{contact}" for end in lead.ends for contact in catalogue.connectors["xlr-3"].contacts]
    shorts = tuple(Part(f"short-{i}", "wire", contacts[0], contact) for i, contact in enumerate(contacts[1:]))
    broken = replace(
        catalogue, leads={**catalogue.leads, LEAD: replace(lead, network=replace(lead.network, parts=shorts))}
    )
    verdict = judged(broken)
    assert verdict.verdict == "dangerous"
    assert {settled for settled, _ in verdict.moments} == {"no signal"}
    assert {"shorted-signal", "over-current"} <= {finding.id for finding in verdict.findings}


def test_a_spare_end_whose_partner_is_not_known_counts_as_open(catalogue):
    """What is not there cannot be plugged in: the same verdict as with no usual partner at all."""
    name = next(
        id for id, lead in catalogue.leads.items() if len(lead.ends) == 3 and id.startswith("xlr-f-to-two")
    )
    lead = catalogue.leads[name]

    def with_partner(usual):
        ends = {id: replace(end, usual=usual) for id, end in lead.ends.items()}
        return judged(replace(catalogue, leads={**catalogue.leads, name: replace(lead, ends=ends)}), (name,))

    assert with_partner("no-such-port") == with_partner(None)
    used = {one.place for way, _ in with_partner("no-such-port").ways for one in way.plugged}
    assert used == {"into2"}, "like tails go into two of the same input, whatever they are usually in"


def test_a_lead_of_one_end_does_not_fit(catalogue):
    lead = catalogue.leads[LEAD]
    broken = replace(catalogue, leads={**catalogue.leads, LEAD: replace(lead, ends={"a": lead.ends["a"]})})
    assert judged(broken).verdict == "does not fit"


def test_a_chain_that_can_be_plugged_in_very_many_ways_is_refused(catalogue):
    """Two breakouts in a row whose ends all go into each other: two ways in, two across, three out, each with
    spare ends open and plugged."""
    verdict = judge(
        catalogue,
        "intercom-headset-xlr-5",
        ("two-xlr-f-to-xlr-5-m", "rj45-to-four-xlr-m-habit"),
        "mixer-mic-in-p12-xlr",
    )
    [finding] = verdict.findings
    assert (verdict.verdict, verdict.plugging, finding.id) == ("dangerous", "dangerous", "not-solved")
    assert finding.says == (
        "This connection could not be worked out: it can be plugged in 152 ways, and no more than 100 are "
        "worked out."
    )
