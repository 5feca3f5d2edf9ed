"""Every rule: what it cites, the words of its sentence, and a connection that meets it. The pairings are
common knowledge of the trade: what anyone would expect to hear of them; values that stand in a sentence are
worked out beside it."""

from functools import cache
from pathlib import Path
from string import Formatter

import pytest
import yaml
from variant import load_with

from generator.catalogue.records import GRADES
from generator.engine.assemble import ways
from generator.engine.findings import met
from generator.engine.judge import judge, read
from generator.engine.rulebook import SEVERITIES, rules
from generator.engine.verdict import VERDICTS

ALWAYS = {"value", "limit"}
# Of each rule: the state, the subject, the value and the limit of the worst reading of its connection below.
# As the engine had them on 2026-11-29; a row that changes is to be understood before it is written anew.
NUMBERS = yaml.safe_load((Path(__file__).with_name("rule_numbers.yaml")).read_text("utf-8"))

# What nothing in the catalogue meets is met in a wider one (variant.py): (finding, quantity, what else the
# rule asks): From, Through, Into
WIDER = {
    ("reversed-capacitor", "part-reverse", ""): (
        "known-way-round-out",
        "phone-35-trs-to-35-trs",
        "recorder-mic-in-35",
    ),
    ("reversed-capacitor", "lasting-reverse", ""): (
        "known-for-a-moment-out",
        "phone-35-trs-to-35-trs",
        "recorder-mic-in-35",
    ),
    ("ask-the-maker", "unrated-volts", "kind: capacitor until 6.3"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "weak-feed-in",
    ),
    ("rating-not-known", "unrated-volts", "kind: part"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("ask-the-maker", "unrated-volts", "kind: part until 4.3"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "weak-feed-in",
    ),
    ("rating-not-known", "unrated-amps", "kind: winding"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("ask-the-maker", "unrated-amps", "kind: winding until 0.0005"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "weaker-feed-in",
    ),
    ("rating-not-known", "unrated-amps", "kind: part"): (
        "unrated-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("ask-the-maker", "unrated-amps", "kind: part until 0.002"): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "weak-feed-in",
    ),
    ("rating-not-known", "unrated-watts", ""): (
        "unrated-parts-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("ask-the-maker", "unrated-watts", "until 0.02"): (
        "unrated-out",
        "xlr-f-to-xlr-m-3m",
        "mixer-mic-in-p48-xlr",
    ),
    ("supply-against-supply", "supply-fed-amps", "live: no"): (
        "camera-battery-out-xlr-4",
        "xlr-4-f-to-xlr-4-m-power",
        "switched-supply-xlr-4",
    ),
    ("other-kind-back", "kinds-apart", "way: back"): ("phone-headset-jack-lrgm", "", "data-headset"),
    ("not-for-data", "slow-lead", "sent: video"): (
        "player-video-out-rca",
        "rca-audio-long",
        "monitor-video-in-rca",
    ),
    ("not-for-data", "slow-lead", "sent: clock until 10"): (
        "word-clock-out-bnc",
        "bnc-audio-short",
        "word-clock-in-bnc",
    ),
    ("not-for-data", "slow-lead", "sent: clock"): (
        "word-clock-out-bnc",
        "bnc-audio-long",
        "word-clock-in-bnc",
    ),
    ("not-for-data", "slow-lead", "sent: digital"): ("digital-out-rca", "rca-audio-long", "digital-in-rca"),
    ("channels-crossed", "crosstalk", ""): ("player-line-out-35", "crossed-stereo", "recorder-line-in-35"),
    ("too-hot", "shout-level", ""): ("mic-condenser-p48-xlr", "", "shy-mic-in"),
    ("level-not-known", "unknown-level", ""): ("unrated-out", "xlr-f-to-xlr-m-3m", "mixer-line-in-xlr"),
    ("dull", "treble", ""): ("mic-dynamic-xlr", "xlr-f-to-xlr-m-very-long", "mixer-mic-in-xlr"),
    ("dull", "pickup-treble", ""): (
        "guitar-pickup-635",
        "phone-635-ts-to-635-ts-very-long",
        "interface-instrument-in-635",
    ),
}
# What the finding then says.
SAYS = {
    ("amplifier-output", "amplifier-into", ""): (
        "The loudspeaker amplifier of 70 W drives loudspeakers only; it must never reach the amplifier line "
        "input."
    ),
    "other-kind": (
        "The player line output sends line and the digital audio input expects digital: not the same kind of "
        "signal."
    ),
    "other-kind-back": (
        "The headset with a data link sends back digital and the phone headset jack expects microphone: not "
        "the same kind of signal."
    ),
    "supply-reversed": (
        "Plus and minus are swapped: the recorder would get 15.5 V the wrong way round, and nobody has said "
        "that it stands that."
    ),
    "nothing-listens": (
        "Neither side sends what the other listens to: not the dynamic microphone, and not the ribbon "
        "microphone."
    ),
    "not-powered": (
        "The microphone electronics of the condenser microphone does not get its power: 0 V instead of 29 V "
        "or more."
    ),
    "nothing-comes-back": "What the headset sends back does not reach the phone headset jack.",
    "open-path": "There is no complete path from the balanced headphone output to the balanced headphones.",
    "one-side-only": "The right channel of the headphone output does not reach the mixer line input.",
    "not-heard": "The mic channel of the headset has nowhere to go in the portable headphone output.",
    ("not-for-data", "slow-lead", "sent: data"): (
        "The XLR Y lead is not made for the fast edges of a digital signal: the lighting data input may lock "
        "or may not."
    ),
    ("not-for-data", "slow-lead", "sent: digital"): (
        "The RCA lead is 30 m long and not made for digital signals: the digital audio input may click or "
        "drop out."
    ),
    "reversed": "Polarity is reversed from the dynamic microphone to the mixer microphone input.",
    "screen-open": (
        "No screen joins the dynamic microphone and the mixer microphone input: phantom has no return and "
        "interference gets in."
    ),
    "level-not-known": (
        "How loud the output nobody has rated is, or what the mixer line input takes, is not known."
    ),
}


def key(rule):
    flags = ", ".join(f"{name}: {want}" for name, want in rule.only.items())
    return rule.id, rule.quantity, (flags + ("" if rule.until is None else f" until {rule.until:g}")).strip()


@pytest.fixture(scope="module")
def wider(tmp_path_factory):
    """The real catalogue and the variants."""
    return load_with(tmp_path_factory.mktemp("pinouts"))


@pytest.fixture(scope="module")
def readings(wider):
    """All readings of every way of a connection."""

    @cache
    def readings(start, through, target):
        outlet, inlet, leads = (
            wider.ports[start],
            wider.ports[target],
            [wider.leads[name] for name in through.split()],
        )
        return [
            reading
            for way in ways(wider, outlet, leads, inlet)
            for reading in read(wider, outlet, leads, inlet, way)
        ]

    return readings


def meets(rule):
    """From, Through, Into of a connection that meets a rule."""
    if not rule.met_by:
        return WIDER[key(rule)]
    start, *through, target = rule.met_by
    return start, " ".join(through), target


def asks(rule, reading):
    if rule.until is not None and reading.value > rule.until:
        return False
    return rule.quantity == reading.quantity and all(
        reading.flags.get(name) == want for name, want in rule.only.items()
    )


def test_every_rule_has_a_connection_that_meets_it(catalogue):
    assert {key(rule) for rule in rules() if not rule.met_by} == set(WIDER)
    for rule in rules():
        if rule.met_by:
            start, *through, target = rule.met_by
            assert {start, target} <= catalogue.ports.keys() and set(through) <= catalogue.leads.keys()


def test_every_finding_says_what_it_means_on_its_first_row():
    for number, rule in enumerate(rules()):
        assert bool(rule.means) == (rule.id not in {other.id for other in rules()[:number]}), rule.id
        assert (
            not rule.means
            or rule.means["says"].endswith(".")
            and set(rule.means) <= {"says", "term", "also", "forms", "linked"}
        )


@pytest.mark.parametrize("rule", rules(), ids="{0.id}-{0.quantity}".format)
def test_what_a_rule_says_of_itself(rule, catalogue):
    assert set(rule.cite) <= set(catalogue.sources), "a source that is not in the bibliography"
    assert rule.evidence in GRADES
    assert rule.severity in SEVERITIES
    # arithmetic may name where its numbers are from
    assert bool(rule.cite) == (rule.evidence in ("standard", "published")) or rule.evidence == "derived"
    assert rule.limit == "own" or float(rule.limit) == rule.limit
    sentences = (
        (rule.says, rule.reason) if rule.severity == "figure" else (rule.says, rule.remedy, rule.reason)
    )
    assert all(text.endswith(".") for text in sentences)
    assert not rule.mend.endswith("."), "it goes on in the middle of a sentence"


@pytest.mark.parametrize("rule", rules(), ids="{0.id}-{0.quantity}".format)
def test_a_connection_meets_it(rule, readings):
    """So every quantity a rule names is one the engine reads."""
    numbers = [reading for reading in readings(*meets(rule)) if asks(rule, reading)]
    assert any(
        met(rule, reading.value, reading.limit if rule.limit == "own" else rule.limit) for reading in numbers
    )


def worst(rule, numbers):
    """The reading that speaks most for a rule; of those alike the first."""
    turn = 1 if rule.compare == "above" else -1
    most = max(turn * reading.value for reading in numbers)
    return next(reading for reading in numbers if turn * reading.value >= most - 1e-6 * abs(most))


@pytest.mark.parametrize("rule", rules(), ids="{0.id}-{0.quantity}".format)
def test_its_number_is_what_it_was(rule, readings):
    """In what state, how much, against what: a corner, a sign or a way of plugging that is lost on the way
    to a number shows here."""
    found = worst(rule, [reading for reading in readings(*meets(rule)) if asks(rule, reading)])
    state, where, value, limit = NUMBERS[" | ".join(key(rule))]
    assert (found.state, found.subject) == (state, where)
    assert found.value == pytest.approx(value, rel=0.01, abs=1e-9)
    assert (found.limit if rule.limit == "own" else rule.limit) == pytest.approx(limit, rel=0.01)


@pytest.mark.parametrize("rule", rules(), ids="{0.id}-{0.quantity}".format)
def test_every_reading_brings_the_words_of_the_sentence(rule, readings):
    wanted = {
        name
        for text in (rule.says, rule.remedy, rule.mend)
        for _, name, _, _ in Formatter().parse(text)
        if name
    } - ALWAYS
    met_any = False
    for pairing in map(meets, rules()):
        for reading in readings(*pairing):
            if asks(rule, reading):
                met_any = True
                assert wanted <= set(reading.words), reading
                assert reading.limit is not None or rule.limit != "own", reading
    assert met_any


@pytest.mark.parametrize("rule", rules(), ids="{0.id}-{0.quantity}".format)
def test_the_verdict_tells_it(rule, wider):
    start, through, target = meets(rule)
    verdict = judge(wider, start, through.split(), target)
    told = [
        finding
        for finding in (verdict.figures if rule.severity == "figure" else verdict.findings)
        if finding.id == rule.id
    ]
    assert told
    assert not any(mark in finding.says + finding.remedy + finding.mend for finding in told for mark in "{}")
    for said in (SAYS[name] for name in (rule.id, key(rule)) if name in SAYS):
        assert said in [finding.says for finding in told]
    if rule.severity in ("lossy", "dangerous"):
        assert VERDICTS.index(verdict.verdict) >= VERDICTS.index(rule.severity)


def test_a_microphone_through_a_shorting_adapter_takes_all_the_bias(wider):
    """derived: the strongest plug-in power, 5 V, through 2.2 kohm less 20 % and the 200 ohm coil: 5 /
    (1760 + 200) = 2.55 mA."""
    findings = judge(
        wider, "mic-dynamic-xlr", ["xlr-f-to-35-trs-both-3-to-1"], "computer-mic-in-35-bias-ring"
    ).findings
    assert "2.55 mA of direct current would flow through the voice coil of the dynamic microphone." in [
        f.says for f in findings
    ]


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
    with pytest.raises(ValueError, match="^rulebook.yaml: rule 'x' is to weigh something, as it is lossy$"):
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
        ValueError, match="^rulebook.yaml: rule 'x' has a severity or comparison that does not exist$"
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
