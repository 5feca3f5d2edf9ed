"""The bag's own logic, run by node: links and lists out and in, what storage may do, chains of leads, what is
missing; the check's switch."""

import json

import pytest

from front import FORBIDDEN, STORAGE, run, scripts
from generator.catalogue.published import as_data
from generator.site import mated
from generator.site.data import table

LOADED = scripts(
    "ui/dom.js",
    "ui/words.js",
    "ui/catalogue.js",
    "ui/table.js",
    "ui/fits.js",
    "ui/slices.js",
    "engine/route.js",
    "ui/effort.js",
    "ui/bag.js",
    "ui/editions.js",
    "ui/own.js",
    "judging/kinds.js",
    "judging/ask.js",
    "check/numbers.js",
    "check/judged.js",
    "check/bagged.js",
    "bag/codes.js",
    "bag/exchange.js",
    "bag/chains.js",
    "bag/pack.js",
    "bag/ask.js",
)
MIC, DESK, CAMERA = "mic-dynamic-xlr", "mixer-mic-in-p48-xlr", "camera-mic-in-35"
CABLE, OTHER, PAD, MINI = (
    "xlr-f-to-xlr-m-3m",
    "xlr-f-to-xlr-m-20m",
    "xlr-f-to-xlr-m-pad-20-db",
    "xlr-f-to-35-trs-both-3-to-1",
)
AMPLIFIER, SPEAKER, CABINET = (
    "loudspeaker-amp-out-635",
    "phone-635-ts-to-635-ts-loudspeaker",
    "loudspeaker-635",
)
ORDER = "Plug it with amplifier off, wait a moment, then amplifier on: then it is safe."
ROWS = [
    [MIC, [CABLE], DESK, "safe", []],
    [MIC, [PAD], DESK, "lossy", ["too-quiet"]],
    [MIC, [MINI], CAMERA, "lossy", ["unbalanced"]],
    [AMPLIFIER, [SPEAKER], CABINET, "dangerous", ["over-current"], "safe", ORDER],
    [MIC, ["xlr-f-to-35-trs-balanced"], CAMERA, "dangerous", ["x"]],
]
BAG = {"leads": [CABLE, PAD], "ports": [MIC], "jobs": [[MIC, DESK], [MIC, CAMERA]], "counts": {}}


@pytest.fixture(scope="module")
def node(catalogue, tmp_path_factory):
    """A function that runs an expression on the real catalogue with a small table;
    retired ids are made up."""
    rows = [
        dict(zip(("from", "through", "into", "verdict", "findings", "offered", "offer"), [*row, "", ""][:7]))
        for row in ROWS
    ]
    data = {**as_data(catalogue), "retired": {"old-mic": [MIC], "old-lead": [CABLE], "split": [MIC, DESK]}}
    file = tmp_path_factory.mktemp("bag") / "data.json"
    file.write_text(
        json.dumps({"data": data, "mated": mated.table(catalogue), "table": table(rows), "rulebook": []})
    )
    return lambda expression, before=STORAGE: run(expression, LOADED, file, before)


def said(value):
    return json.dumps(value)


# Out and in


def test_a_link_carries_the_whole_bag(node):
    link = node(f"bag.write({said(BAG)})")
    assert len(link) < 60
    assert node(f"bag.read({said(link)})") == {"bag": BAG, "unknown": []}


def test_every_id_survives_a_link_and_codes_hardly_collide(node, catalogue):
    everything = {"leads": list(catalogue.leads), "ports": list(catalogue.ports), "jobs": [], "counts": {}}
    assert node(f"bag.read(bag.write({said(everything)}))") == {"bag": everything, "unknown": []}


def test_two_ids_of_one_code_are_written_out_and_never_taken_for_each_other(node):
    same = "bag.code = (id) => 'aaaaa'; "
    assert (
        node(f"(() => {{ {same} return bag.write({said(BAG)}); }})()")
        == f"#leads={CABLE}.{PAD}&ports={MIC}&jobs={MIC}_{DESK}.{MIC}_{CAMERA}"
    )
    assert node(f"(() => {{ {same} return bag.read('#leads=aaaaa'); }})()") == {
        "bag": {"leads": [], "ports": [], "jobs": [], "counts": {}},
        "unknown": ["aaaaa"],
    }


def test_a_code_never_changes(node):
    """Links that people sent live on: these are FNV-1a, 32 bits, modulo 36^5. That the hash of "a" is
    0xe40c292c is from memory."""
    assert node("bag.code('a')") == "".join(
        "0123456789abcdefghijklmnopqrstuvwxyz"[(0xE40C292C % 36**5) // 36**place % 36]
        for place in range(4, -1, -1)
    )


def test_a_moved_id_arrives_under_its_new_name(node):
    assert node("bag.read('#leads=' + bag.code('old-lead') + '&ports=old-mic')")["bag"] == {
        "leads": [CABLE],
        "ports": [MIC],
        "jobs": [],
        "counts": {},
    }


@pytest.mark.parametrize(
    "hash, unknown",
    [
        ("#leads=<img>", ["<img>"]),
        ("#ports=__proto__.constructor", ["__proto__", "constructor"]),
        ("#jobs=zzzzz", ["zzzzz"]),
        (f"#jobs={MIC}_nothing", ["nothing"]),
        ("#ports=split", ["split"]),
        ("#leads=" + "x" * 500, ["x" * 80]),
    ],
)
def test_what_is_not_understood_is_told(node, hash, unknown):
    read = node(f"bag.read({said(hash)})")
    assert read["unknown"] == unknown
    assert read["bag"] == {"leads": [], "ports": [], "jobs": [], "counts": {}}


def test_an_address_without_a_bag_is_none(node):
    assert node("[bag.read(''), bag.read('#from=x')]") == [None, None]


def test_text_and_json_come_back_as_they_went(node):
    assert node(f"bag.parse(bag.asText({said(BAG)}))") == {"bag": BAG, "unknown": []}
    assert node(f"bag.parse(bag.asJson({said(BAG)}))") == {"bag": BAG, "unknown": []}
    assert node(f"bag.parse('look: https:' + '//x.example/bag/' + bag.write({said(BAG)}))") == {
        "bag": BAG,
        "unknown": [],
    }
    assert node(f"bag.asText({said(BAG)})").splitlines()[:2] == [
        "Leads",
        f"- XLR microphone lead, 3 m [{CABLE}]",
    ]


@pytest.mark.parametrize(
    "text, fault",
    [
        ("", "There is nothing to read. Paste a list, a file's text or a link."),
        ("{", "This is not whole JSON."),
        ("{}", "This is not a bag of version 1."),
        ('{"version": 2, "leads": []}', "This is not a bag of version 1."),
        ("hello", "No id in brackets, such as [xlr-f-to-xlr-m-3m], is in it."),
        ("x" * 200001, "That is too long to be a bag."),
    ],
)
def test_what_is_no_bag_is_refused_in_words(node, text, fault):
    assert node(f"bag.parse({said(text)})") == {"fault": fault}


def test_how_many_of_each_goes_out_and_comes_back(node):
    """By link, as text and as JSON; of what is not in the bag, and of numbers nobody has, nothing is kept."""
    many = {**BAG, "counts": {CABLE: 4, MIC: 2}}
    assert node(f"bag.read(bag.write({said(many)}))") == {"bag": many, "unknown": []}
    assert node(f"bag.parse(bag.asText({said(many)}))") == {"bag": many, "unknown": []}
    assert node(f"bag.parse(bag.asJson({said(many)}))") == {"bag": many, "unknown": []}
    assert "4 × " in node(f"bag.asText({said(many)})")
    wild = {**BAG, "counts": {CABLE: 1, PAD: -3, MIC: 2.5, DESK: 4, "__proto__": 3, "nothing": 5}}
    assert node(f"ui.asBag({said(wild)})") == {"bag": BAG, "unknown": []}
    assert node(f"ui.asBag({said({**BAG, 'counts': [1, 2]})})") == {"bag": BAG, "unknown": []}
    fewer = {**BAG, "counts": {CABLE: 2, PAD: 3}}
    assert node(f"bag.joined({said(many)}, {said(fewer)}).counts") == {CABLE: 4, MIC: 2, PAD: 3}


def test_a_list_that_takes_more_of_a_lead_than_there_are_says_so(node):
    jobs = f"[1, 2, 3].map(() => ({{ state: {{ best: {{ through: ['{CABLE}'] }} }} }}))"
    assert node(f"bag.short({jobs}, {said({**BAG, 'counts': {CABLE: 2}})})") == [
        {"id": CABLE, "wanted": 3, "have": 2}
    ]
    assert node(f"bag.short({jobs}, {said({**BAG, 'counts': {CABLE: 3}})})") == []


def test_hostile_json_gives_only_ids_that_live(node):
    text = (
        '{"version": 1, "leads": ["__proto__", 7, null, {"a": 1}, "%s", "%s"], "ports": "mic", "jobs": '
        '[["a"], 5, ["%s", "%s"]]}'
    ) % (CABLE, CABLE, MIC, DESK)
    assert node(f"bag.parse({said(text)})")["bag"] == {
        "leads": [CABLE],
        "ports": [],
        "jobs": [[MIC, DESK]],
        "counts": {},
    }


def test_two_bags_become_one_without_doubles(node):
    other = {"leads": [PAD, MINI], "ports": [MIC], "jobs": [[MIC, DESK]], "counts": {}}
    assert node(f"bag.joined({said(BAG)}, {said(other)})") == {
        "leads": [CABLE, PAD, MINI],
        "ports": [MIC],
        "jobs": [[MIC, DESK], [MIC, CAMERA]],
        "counts": {},
    }


# Storage


def test_the_bag_is_kept(node):
    assert node(f"[ui.keepBag({said(BAG)}), ui.bag(), ui.bagOnly(), ui.setBagOnly(true), ui.bagOnly()]") == [
        True,
        BAG,
        False,
        True,
        True,
    ]


def test_a_forbidden_storage_gives_an_empty_bag_and_says_so(node):
    empty = {"leads": [], "ports": [], "jobs": [], "counts": {}}
    assert node(f"[ui.keepBag({said(BAG)}), ui.bag(), ui.setBagOnly(true), ui.bagOnly()]", FORBIDDEN) == [
        False,
        empty,
        False,
        False,
    ]


@pytest.mark.parametrize(
    "kept",
    [
        "nonsense",
        "null",
        "7",
        '"text"',
        "[]",
        '{"leads": {"length": 9}}',
        '{"leads": [{}], "jobs": [null, []]}',
    ],
)
def test_a_spoilt_storage_gives_an_empty_bag(node, kept):
    assert node(f"(localStorage.setItem('ringfence.bag', {said(kept)}), ui.bag())") == {
        "leads": [],
        "ports": [],
        "jobs": [],
        "counts": {},
    }


# Chains


def test_chains_are_those_that_fit_up_to_two_none_twice(node):
    chains = node(f"bag.chains('{MIC}', '{CAMERA}', {said([CABLE, PAD, MINI])})")
    assert chains == [[MINI], [CABLE, MINI], [PAD, MINI]]
    assert node(f"bag.chains('{MIC}', '{DESK}', {said([CABLE])})") == [[], [CABLE]]
    assert node(f"bag.chains('{MIC}', '{CAMERA}', [])") == []


def test_the_search_judges_every_chain_and_puts_the_best_first(node):
    judge = """Ringfence.judge = (data, rules, { through }) => ({ verdict: through.length === 2 ? "safe" : through[0] ? "lossy" : "dangerous",
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
    judge = "Ringfence.judge = () => { throw new Error('broken'); };"
    assert node(
        f"(() => {{ {judge} return new Promise((done) => bag.search('{MIC}', '{DESK}', [], {{ ondone: "
        "done })); })()"
    ) == {"ways": [], "failed": 1}


# Packing


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
    judge = (
        """Ringfence.judge = (data, rules, { through }) => ({ findings: [], ...(through.length === 2 ? { verdict: "lossy" } : through[0] === '%s' ? { verdict: "safe" }
      : through[0] ? { verdict: "dangerous", offered: "safe", offer: "In this order." } : { verdict: "dangerous" }) });"""
        % CABLE
    )
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


# The check's switch

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
