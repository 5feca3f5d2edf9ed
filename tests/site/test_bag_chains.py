"""Chains of leads out of a bag, run by node: judged, the best first, what is missing; the check's switch."""

import pytest
from bag import (
    AMPLIFIER,
    BAG,
    CABINET,
    CABLE,
    CAMERA,
    DESK,
    MIC,
    MINI,
    ORDER,
    OTHER,
    PAD,
    SPEAKER,
    in_node,
    said,
)

node = pytest.fixture(scope="module")(in_node)


def test_chains_are_those_that_fit_up_to_two_none_twice(node):
    chains = node(f"bag.chains('{MIC}', '{CAMERA}', {said([CABLE, PAD, MINI])})")
    assert chains == [[MINI], [CABLE, MINI], [PAD, MINI]]
    assert node(f"bag.chains('{MIC}', '{DESK}', {said([CABLE])})") == [[], [CABLE]]
    assert node(f"bag.chains('{MIC}', '{CAMERA}', [])") == []


def test_the_search_judges_every_chain_and_puts_the_best_first(node):
    judge = """Ringfence.engine.judge = (data, rules, { through }) => ({ verdict: through.length === 2 ?
      "safe" : through[0] ? "lossy" : "dangerous",
      findings: [{ id: "x", severity: "lossy", says: "said" }] });"""
    found = node(
        f"(() => {{ {judge} return new Promise((done) => bag.search('{MIC}', '{DESK}', "
        f"{said([CABLE, PAD])}, {{ ondone: done }})); }})()"
    )
    assert found["failed"] == 0
    assert [(way["through"], way["verdict"]) for way in found["ways"]] == [
        ([CABLE, PAD], "safe"),
        ([PAD, CABLE], "safe"),
        ([CABLE], "lossy"),
        ([PAD], "lossy"),
        ([], "dangerous"),
    ]


def test_what_cannot_be_worked_out_is_counted_and_not_listed(node):
    judge = "Ringfence.engine.judge = () => { throw new Error('broken'); };"
    assert node(
        f"(() => {{ {judge} return new Promise((done) => bag.search('{MIC}', '{DESK}', [], {{ ondone: "
        "done })); })()"
    ) == {"ways": [], "failed": 1}


def state(node, job, ways, leads):
    return node(
        f"bag.stateOf({{ job: {said(job)}, result: {{ ways: {said(ways)} }} }}, {{ leads: {said(leads)} }})"
    )


def way(verdict, *through):
    return {"through": list(through), "verdict": verdict, "findings": [], "says": ""}


def test_what_is_missing_is_named_with_the_safest_lead_to_add(node):
    found = state(node, [MIC, DESK], [way("dangerous", MINI)], [MINI])
    assert (found["word"], found["add"]["through"], found["says"]) == (
        "missing",
        [CABLE],
        "Missing. The safest single lead for it:",
    )


def test_a_lead_that_harms_is_never_advised(node):
    assert state(node, [MIC, CAMERA], [], [MINI])["add"] is None
    assert (
        state(node, [MIC, CAMERA], [], [MINI])["says"]
        == "Missing, and no single lead in this catalogue makes it work."
    )


def test_what_a_switch_makes_well_is_packed_and_keeps_its_mark(node):
    """A loudspeaker lead belongs on the list, dangerous mark, order and all."""
    missing = state(node, [AMPLIFIER, CABINET], [], [])
    assert (
        missing["word"],
        missing["add"]["through"],
        missing["add"]["verdict"],
        missing["add"]["offer"],
    ) == ("missing", [SPEAKER], "dangerous", ORDER)
    held = {**way("dangerous", SPEAKER), "offered": "safe", "says": ORDER}
    found = state(node, [AMPLIFIER, CABINET], [held], [SPEAKER])
    assert (found["word"], found["best"]["says"], found["says"]) == ("covered", ORDER, "In the bag.")
    assert node(f"[[{said(held)}], [{said(way('dangerous', SPEAKER))}]].map(bag.headline)") == [
        "Safe with what you carry, in the order told",
        "Nothing in the bag is without danger",
    ]


def test_what_needs_an_order_comes_after_safe_and_before_loss(node):
    judge = f"""Ringfence.engine.judge = (data, rules, {{ through }}) => ({{ findings: [], ...(
      through.length === 2 ? {{ verdict: "lossy" }} :
      through[0] === '{CABLE}' ? {{ verdict: "safe" }} :
      through[0] ? {{ verdict: "dangerous", offered: "safe", offer: "In this order." }} :
      {{ verdict: "dangerous" }}) }});"""
    found = node(
        f"(() => {{ {judge} return new Promise((done) => bag.search('{MIC}', '{DESK}', "
        f"{said([CABLE, OTHER])}, {{ ondone: done }})); }})()"
    )
    assert [(way["through"], way["verdict"]) for way in found["ways"]] == [
        ([CABLE], "safe"),
        ([OTHER], "dangerous"),
        ([OTHER, CABLE], "lossy"),
        ([CABLE, OTHER], "lossy"),
        ([], "dangerous"),
    ]
    assert found["ways"][1]["says"] == "In this order."


def test_a_loss_is_told_with_what_does_better(node):
    found = state(node, [MIC, DESK], [way("lossy", PAD)], [PAD])
    assert (found["word"], found["add"]["through"], found["says"]) == (
        "better",
        [CABLE],
        "In the bag, with a loss. Better:",
    )
    assert (
        state(node, [MIC, CAMERA], [way("lossy", MINI)], [MINI])["says"]
        == "In the bag, with a loss. No single lead does better."
    )


def test_a_lead_counts_before_plugging_straight_in(node):
    found = state(node, [MIC, DESK], [way("safe"), way("safe", CABLE)], [CABLE])
    assert (found["word"], found["best"]["through"], found["says"], found["add"]) == (
        "covered",
        [CABLE],
        "In the bag.",
        None,
    )
    found = state(node, [MIC, DESK], [way("safe")], [])
    assert (found["word"], found["add"]["through"], found["says"]) == (
        "covered",
        [CABLE],
        "It goes straight in. With a lead in between:",
    )


def test_nothing_is_covered_before_it_is_worked_out(node):
    assert (
        node(f"bag.stateOf({{ job: {said([MIC, DESK])}, result: undefined }}, {{ leads: [] }}).word")
        == "working"
    )


CHOICES = f"{{ fit: [ui.lead('{CABLE}'), ui.lead('{PAD}')], not: [] }}"


def test_the_check_is_not_limited_unasked(node):
    assert node(f"(ui.keepBag({said(BAG)}), check.bagged({CHOICES}).fit.length)") == 2


def test_the_switch_leaves_only_what_is_in_the_bag_and_says_why(node):
    limited = node(
        f"(ui.keepBag({{ leads: ['{PAD}'], ports: [], jobs: [] }}), ui.setBagOnly(true), "
        f"check.bagged({CHOICES}))"
    )
    assert [lead["id"] for lead in limited["fit"]] == [PAD]
    assert [(hidden["entry"]["id"], hidden["why"]) for hidden in limited["not"]] == [
        (CABLE, "Not in your kit.")
    ]


def test_an_empty_bag_limits_nothing(node):
    assert node(
        f"(ui.setBagOnly(true), [check.bagged({CHOICES}).fit.length, check.carried('{CABLE}'), "
        "check.bagSwitch(() => {})])"
    ) == [2, True, None]
