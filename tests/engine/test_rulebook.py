"""Every rule: what it cites, the words of its sentence, and a connection that meets it. The pairings are
common knowledge of the trade: what anyone would expect to hear of them; values that stand in a sentence are
worked out beside it."""

from string import Formatter

import pytest
from met_rules import ALWAYS, NUMBERS, SAYS, WIDER, asks, every_reading, key, load_wider, meets

from generator.catalogue.records import GRADES
from generator.engine.findings import met
from generator.engine.judge import judge
from generator.engine.rulebook import SEVERITIES, rules
from generator.engine.verdict import VERDICTS

WITHOUT_CIRCUIT = {
    "bare-lead",
    "kinds-apart",
    "unheard",
    "slow-lead",
    "slow-parts",
    "fast-coil",
    "contact-shut",
    "amplifier-into",
    "amplifier-through",
    "unknown-level",
    "source-off",
    "timecode-as-sound",
}

wider = pytest.fixture(scope="module")(load_wider)
readings = pytest.fixture(scope="module")(every_reading)


def test_every_rule_has_a_connection_that_meets_it(catalogue):
    assert {key(rule) for rule in rules() if not rule.met_by} == set(WIDER)
    for rule in rules():
        if rule.met_by:
            start, *through, target = rule.met_by
            assert {start, target} <= catalogue.ports.keys() and set(through) <= catalogue.leads.keys()


def test_every_finding_says_what_it_means_on_its_first_row():
    for number, rule in enumerate(rules()):
        assert bool(rule.means) == (rule.id not in {other.id for other in rules()[:number]}), rule.id
        assert not rule.means or (
            rule.means["says"].endswith(".")
            and set(rule.means) <= {"says", "term", "also", "forms", "linked"}
        )


def test_what_can_not_be_explained_in_a_circuit_follows_from_what_the_devices_are(readings):
    placed = {reading.quantity for rule in rules() for reading in readings(*meets(rule)) if reading.at}
    assert {rule.quantity for rule in rules()} - placed == WITHOUT_CIRCUIT


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
