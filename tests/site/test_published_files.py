"""The published data and the classic scripts made from it."""

import json
import re
from itertools import islice

import once
import pytest
from front import in_node, joined, scripts

from generator.catalogue.published import as_data
from generator.engine.mate import fits
from generator.engine.tables import tables
from generator.site import data, mated
from generator.site.columns import packed

ROWS = [
    {
        "from": "mic",
        "through": ["lead"],
        "into": "desk",
        "verdict": "lossy",
        "findings": ["dull", "thin"],
        "also": [],
        "number": "",
        "offered": "",
        "offer": "",
    },
    {
        "from": "mic",
        "through": [],
        "into": "desk",
        "verdict": "safe",
        "findings": [],
        "also": [],
        "number": "",
        "offered": "",
        "offer": "",
    },
    {
        "from": "mic",
        "through": ["plain"],
        "into": "desk",
        "verdict": "dangerous",
        "findings": ["over-volts"],
        "also": [],
        "number": "",
        "offered": "lossy",
        "offer": "In this order.",
    },
    {
        "from": "mic",
        "through": ["lead"],
        "into": "recorder",
        "verdict": "lossy",
        "findings": ["dull", "thin"],
        "also": [],
        "number": "",
        "offered": "",
        "offer": "",
    },
]


def values(script: bytes) -> dict:
    """What a script assigns to Ringfence, by name; what is large stands there as text for JSON.parse."""
    found = re.findall(r"^Ringfence\.(\w+) = (JSON\.parse\()?(.*?)(?(2)\));$", script.decode(), re.MULTILINE)
    return {
        name: json.loads(json.loads(text)) if parsed else json.loads(text) for name, parsed, text in found
    }


def test_verdicts_are_published_whole():
    files = data.files({"ports": {}, "questions": {}}, {}, {}, {}, ROWS)
    published = json.loads(files["data/v1/verdicts.json"])
    assert published["version"] == 1
    assert published["verdicts"][0] == {
        "from": "mic",
        "through": ["lead"],
        "into": "desk",
        "verdict": "lossy",
        "offered": "",
        "offer": "",
        "findings": ["dull", "thin"],
        "number": "",
    }


def test_the_table_script_tells_the_same_rows():
    table = values(data.files({"ports": {}, "questions": {}}, {}, {}, {}, ROWS)["assets/js/table.js"])[
        "table"
    ]
    pairs, ways = iter(zip(*[iter(table["pairs"])] * 3)), iter(zip(*[iter(table["ways"])] * 2))
    told = []
    for outlet, inlet, count in pairs:
        for lead, found in islice(ways, count):
            verdict, offer, *why = table["told"][found]
            ends, order = table["offers"][offer] if offer >= 0 else (-1, "")
            told.append(
                (
                    table["ids"][outlet],
                    [table["ids"][lead]] if lead >= 0 else [],
                    table["ids"][inlet],
                    table["verdicts"][verdict],
                    [table["findings"][f] for f in why],
                    table["verdicts"][ends] if offer >= 0 else "",
                    order,
                )
            )
    assert told == [
        tuple(row[key] for key in ("from", "through", "into", "verdict", "findings", "offered", "offer"))
        for row in ROWS
    ] and not list(ways)


def read(*scripts: bytes, then: str):
    """The value of an expression after some scripts of ours, in node."""
    program = (
        "globalThis.window = globalThis;\n"
        + b"\n".join(scripts).decode()
        + f"\nprocess.stdout.write(JSON.stringify({then}));"
    )
    return in_node(program)


READER = joined(scripts("columns")).encode()


def test_no_text_can_end_the_script():
    files = data.files(
        {"ports": {"x": {"name": "</script><b>", "asks": []}}, "questions": {}}, {}, {}, {}, []
    )
    assert b"</" not in files["assets/js/data.js"]
    assert read(READER, files["assets/js/data.js"], then="Ringfence.data.ports.x.name") == "</script><b>"


@pytest.mark.parametrize(
    "value",
    [
        {},
        [],
        0,
        None,
        {"a": [1, 2], "b": []},
        [[], [[]], [{}]],
        [True, 1, 1.5, "1", None, False, 0] * 9,
        ["x"] * 20,
        {"a": {"b": None}, "c": [{"d": 1}, {"d": 2}, {"e": [3]}]},
        {str(n): {"name": str(n), "part": {"a": n % 3, "b": None}, "list": [n] * (n % 4)} for n in range(30)},
        [1, [2], {"a": 3}, "4", [1]],
    ],
    ids=str,
)
def test_what_is_packed_is_read_back_the_same(value):
    found = read(READER, then=f"Ringfence.columns.unpacked({json.dumps({'one': packed(value)})}).one")
    assert json.dumps(found) == json.dumps(value), "with every map in its order"


def test_published_catalogue_is_the_one_in_the_scripts(tree, catalogue):
    published = json.loads(tree["data/v1/catalogue.json"])
    assert published.pop("version") == 1 and published == as_data(catalogue)
    found = read(
        *(tree[f"assets/js/{name}.js"] for name in ("data", "called", "circuits", "printed", "asks")),
        then="(({data, manual, ...more}) => ({...data, ...manual, converters: more.converters, "
        "feeding: more.feeding}))(Ringfence)",
    )
    # in their order, with the grade of what is known
    assert found.pop("converters") == [
        {**box, "evidence": box["evidence"]["grade"]} for box in published.pop("converters").values()
    ]
    assert found.pop("feeding") == {
        outlet: {key: way[key] for key in ("through", "into")}
        for way in published.pop("feeding").values()
        for outlet in way["outlets"]
    }
    asks = {name: port.pop("asks") for name, port in published["ports"].items()}
    assert found.pop("asks") == {name: some for name, some in asks.items() if some}
    for port in published["ports"].values():
        del port["same_as"]  # for who writes a record of their own: in the file, not in the scripts
    assert found.pop("classes") == {}, "nothing is local"
    assert found == published


def test_what_comes_later_is_not_in_what_comes_first(tree):
    found = read(tree["assets/js/data.js"], then="Ringfence.data")
    for later in (data.SOLVED, data.PRINTED, data.CALLED):
        assert {
            kind: [name for name in fields for record in found.get(kind, {}).values() if name in record]
            for kind, fields in later.items()
        } == {kind: [] for kind in later}


def test_what_is_only_printed_is_in_no_verdict(tree):
    found = read(tree["assets/js/data.js"], tree["assets/js/circuits.js"], then="Ringfence.data")
    assert {
        kind: [name for name in data.PRINTED[kind] for record in found[kind].values() if name in record]
        for kind in data.PRINTED
    } == {kind: [] for kind in data.PRINTED}


def test_every_source_that_a_finding_names_has_its_title_at_hand(tree, catalogue):
    cited = {
        name for one in once.judged(catalogue) for finding in one["findings"] for name in finding["cite"]
    }
    found = read(tree["assets/js/data.js"], tree["assets/js/circuits.js"], then="Ringfence.data.sources")
    assert cited <= set(found) < set(catalogue.sources)
    assert all(found[name]["title"] == catalogue.sources[name].title for name in cited)


def test_matings_are_the_engines_and_seen_from_both_sides(catalogue):
    table = mated.table(catalogue)
    for one, others in table.items():
        connector, half = one.split("/")
        for other in table:
            family, partner = other.split("/")
            assert (other in others) == fits(
                (catalogue.connectors[connector], half), (catalogue.connectors[family], partner)
            )
        for other, ways in others.items():
            turned = [sorted([b, a] for a, b in way) for way in table[other][one]]
            assert sorted(sorted(way) for way in ways) == sorted(turned)


def test_two_equal_halves_meet_contact_by_contact(catalogue):
    for way in mated.table(catalogue)["phone-635-trs/jack"]["phone-635-trs/plug"]:
        assert way == [["tip", "tip"], ["ring", "ring"], ["sleeve", "sleeve"]]


def test_the_scripts_have_the_tables_the_engine_judges_by():
    files = data.files({"ports": {}, "questions": {}}, tables(), {}, {}, [])
    found = read(
        READER,
        files["assets/js/data.js"],
        files["assets/js/circuits.js"],
        then="({rulebook: Ringfence.rulebook, powering: Ringfence.powering})",
    )
    assert found == json.loads(json.dumps(tables()))
    assert {key for row in found["powering"] for key in row} == {"powered", "says", "volts", "ohm", "farad"}


def test_records_are_published_with_all_their_fields(catalogue):
    published = as_data(catalogue)
    ports, leads = published["ports"].values(), published["leads"].values()
    assert all({"powered_by", "follows"} <= port.keys() for port in ports) and all(
        "made_for" in lead for lead in leads
    )
    assert all("seconds" in limit for record in (*ports, *leads) for limit in record["network"]["limits"])
    assert all("supply" in source for port in ports for source in port["sources"])
    assert all("full" in need for port in ports for need in port["needs"])
