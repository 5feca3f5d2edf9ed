"""The bag's own logic, run by node: links and lists out and in, and what storage may do."""

import json

import pytest
from bag import BAG, CABLE, CAMERA, DESK, MIC, MINI, PAD, in_node, said
from front import FORBIDDEN, sources

node = pytest.fixture(scope="module")(in_node)


def test_a_link_carries_the_whole_bag(node):
    link = node(f"bag.write({said(BAG)})")
    assert len(link) < 60
    assert node(f"bag.read({said(link)})") == {"bag": BAG, "unknown": []}


def test_every_id_survives_a_link_and_codes_hardly_collide(node, catalogue):
    everything = {"leads": list(catalogue.leads), "ports": list(catalogue.ports), "jobs": [], "counts": {}}
    assert node(f"bag.read(bag.write({said(everything)}))") == {"bag": everything, "unknown": []}


def test_two_ids_of_one_code_are_written_out_and_never_taken_for_each_other(node):
    head = b"export function code(id) {\n"
    same = {"bag/codes.js": sources()["bag/codes.js"].replace(head, head + b"  if (id) return 'aaaaa';\n")}
    assert node("bag.code('x')", changed=same) == "aaaaa"
    assert (
        node(f"bag.write({said(BAG)})", changed=same)
        == f"#leads={CABLE}.{PAD}&ports={MIC}&jobs={MIC}_{DESK}.{MIC}_{CAMERA}"
    )
    assert node("bag.read('#leads=aaaaa')", changed=same) == {
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
    leads, jobs = ["__proto__", 7, None, {"a": 1}, CABLE, CABLE], [["a"], 5, [MIC, DESK]]
    text = json.dumps({"version": 1, "leads": leads, "ports": "mic", "jobs": jobs})
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
