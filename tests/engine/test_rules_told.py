"""What rules tell of a connection, and which rows of the rulebook make no sense."""

import pytest
from met_rules import every_reading, load_wider, meets

from generator.engine.judge import judge
from generator.engine.rulebook import SEVERITIES, rules

wider = pytest.fixture(scope="module")(load_wider)
readings = pytest.fixture(scope="module")(every_reading)


def test_the_pad_is_named_where_it_is_too_hot(wider):
    [finding] = [
        f for f in judge(wider, "mixer-line-out-xlr", (), "mixer-mic-in-xlr").findings if f.id == "too-hot"
    ]
    assert finding.remedy == (
        "Use a line input, or a 20 dB pad: 680 Ω in each leg, 150 Ω across the input (the output sees 1.51 "
        "kΩ, the input 136 Ω)."
    )


def test_figures_are_told_of_what_works_and_of_nothing_else(wider):
    for start, through, target in map(meets, rules()):
        verdict = judge(wider, start, through.split(), target)
        assert bool(verdict.figures) <= (verdict.verdict in ("safe", "lossy"))
        assert len({(figure.id, figure.case) for figure in verdict.figures}) == len(verdict.figures)
        assert all(finding.severity != "figure" for finding in verdict.findings)


def test_the_volts_left_at_a_microphone(wider):
    """derived: 44 V behind 6.81 kohm + 20 % in each leg, 3 mA drawn through both: 44 - 0.003 x 8172 / 2 =
    31.7 V at the connector."""
    [figure] = [
        f
        for f in judge(wider, "mic-condenser-p48-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr").figures
        if f.id == "volts-left"
    ]
    assert figure.value == pytest.approx(44 - 0.003 * 6810 * 1.2 / 2, rel=1e-3)
    assert (
        figure.says
        == "The microphone electronics of the condenser microphone gets 31.7 V and needs 29 V or more."
    )


def test_which_contacts_meet_on_the_way_in_is_told(wider):
    """common practice: a stereo plug on its way into a powered socket wipes its tip over the contacts that
    belong to ring and sleeve."""
    said = [
        f.says
        for f in judge(
            wider, "wireless-receiver-out-35", ("phone-35-trs-to-35-trs",), "camera-mic-in-35"
        ).findings
    ]
    assert any(
        text.startswith(
            "While you plug, with the plug's tip on the jack's ring and sleeve, the plug-in power of the "
            "camera microphone input gives"
        )
        for text in said
    )


def test_a_loss_has_a_weight_and_dangers_need_none():
    from generator.engine.rulebook import _rule, loss

    assert loss(["unbalanced", "unbalanced", "reversed"]) == loss(["unbalanced"]) + loss(["reversed"]) > 0
    assert loss(["over-volts", "wait-for-capacitors", "does-not-mate"]) == 0
    row = {
        "id": "x",
        "quantity": "q",
        "compare": "above",
        "limit": 1,
        "severity": "lossy",
        "says": "x.",
        "reason": "x.",
        "evidence": "derived",
    }
    with pytest.raises(ValueError, match=r"^rulebook\.yaml: rule 'x' is to weigh something, as it is lossy$"):
        _rule(row)


def test_findings_come_worst_first_and_notes_last(wider):
    for start, through, target in map(meets, rules()):
        severities = [
            SEVERITIES.index(f.severity) for f in judge(wider, start, through.split(), target).findings
        ]
        assert severities == sorted(severities, reverse=True)


def test_a_rule_that_makes_no_sense_is_refused():
    from generator.engine.rulebook import _rule

    row = {
        "id": "x",
        "quantity": "q",
        "compare": "beyond",
        "limit": 1,
        "severity": "note",
        "says": "x.",
        "reason": "x.",
        "evidence": "derived",
    }
    with pytest.raises(
        ValueError, match=r"^rulebook\.yaml: rule 'x' has a severity or comparison that does not exist$"
    ):
        _rule(row)


def test_a_devices_own_supply_through_a_part_of_unknown_rating_is_dangerous(wider):
    """With nothing plugged in no current flows through the resistor; a mono plug shorts the ring's supply to
    the sleeve: 5 V over 100 ohm, and a little signal."""
    verdict = judge(wider, "mic-electret-mono-35", (), "unrated-feed-in")
    finding = max((f for f in verdict.findings if f.id == "rating-not-known"), key=lambda f: f.value)
    assert verdict.verdict == "dangerous"
    assert finding.value == pytest.approx(0.05, rel=0.01)
    assert finding.says == (
        "50.1 mA would flow through the supply resistor (right) of the input with a supply nobody has rated, "
        "and what it is rated for is not known."
    )


def test_what_a_device_does_to_its_own_parts_unplugged_is_its_makers_affair(wider):
    """The capacitor across its supply sees 5 V in the drawer as well."""
    verdict = judge(wider, "mic-electret-mono-35", (), "unrated-feed-in")
    assert not [f for f in verdict.findings if f.where.startswith("rail capacitor")]
