"""The bench's own logic, run by node: the twin of the cable layer on every lead, addresses, values as people
type them, known leads, the file."""

import json
import shutil
from dataclasses import asdict

import pytest

from front import run, scripts
from generator.catalogue import default_directory, load
from generator.catalogue.published import as_data
from generator.catalogue.quantity import parse
from generator.engine.tables import tables
from generator.site import mated
from generator.site.data import table

LOADED = scripts(
    "ui/dom.js",
    "ui/words.js",
    "ui/quantity.js",
    "ui/catalogue.js",
    "ui/table.js",
    "ui/fits.js",
    "engine",
    "ui/editions.js",
    "ui/own.js",
    "check/numbers.js",
    "check/judged.js",
    *(
        f"bench/{name}.js"
        for name in (
            "address",
            "components",
            "drawing",
            "known",
            "lay",
            "layout",
            "lead",
            "nets",
            "stock",
            "verdicts",
            "wiring",
            "yaml",
        )
    ),
)


@pytest.fixture(scope="module")
def node(catalogue, tmp_path_factory):
    """A function that runs an expression on the real catalogue."""
    data = tmp_path_factory.mktemp("bench") / "data.json"
    data.write_text(
        json.dumps(
            {"data": as_data(catalogue), "mated": mated.table(catalogue), "table": table([]), **tables()}
        )
    )
    return lambda expression: run(expression, LOADED, data)


def plain(value):
    """As JSON would carry it."""
    return json.loads(json.dumps(value))


# The cable layer


def test_every_lead_laid_again_is_the_one_the_catalogue_built(node, catalogue):
    laid = node("""Object.fromEntries(ui.leads().map((lead) => {
      const cable = lead.cable && { ...bench.stock()[lead.cable], length: ui.quantity(`${lead.length} m`, "m").value };
      const parts = bench.lay(lead.joins, Object.keys(lead.ends), cable || null);
      return [lead.id, { parts, limits: bench.ratings(parts, cable, lead.length) }];
    }))""")
    assert set(laid) == set(catalogue.leads) and len(laid) > 50
    for id, lead in as_data(catalogue)["leads"].items():
        own = [part for part in lead["network"]["parts"] if part["id"] not in lead["parts"]]
        assert laid[id]["parts"] == plain(own), id
        assert laid[id]["limits"] == plain(
            [limit for limit in lead["network"]["limits"] if limit["part"] in {part["id"] for part in own}]
        ), id


def cable_file(id):
    import yaml

    file = yaml.load((default_directory() / f"cables/{id}.yaml").read_text(), yaml.BaseLoader)
    return cable_file(file["same_as"]) | file if "same_as" in file else file


def test_the_stock_has_every_figure_of_the_cables_own_files(node, catalogue):
    """It is read back from the leads; a figure no lead shows would be lost, and a lead be
    judged better than it is."""
    stock = node("bench.stock()")
    used = {lead.cable for lead in catalogue.leads.values() if lead.cable}
    assert set(stock) == used
    for id in used:
        file = cable_file(id)
        for figure in ("core", "screen", "core_to_core", "core_to_screen"):
            known = asdict(parse(file[figure])) if figure in file else None
            assert stock[id][figure] == known, f"{figure} of {id}"
        current = file["current"]  # with evidence of its own, a mapping
        assert stock[id]["amps"] == parse(current["value"] if isinstance(current, dict) else current).low
        assert stock[id]["impedance"] == (parse(file["impedance"]).nominal if "impedance" in file else None)


# Values

STRICT = [
    "4.7 kohm",
    "4.7kohm",
    ".5 ohm",
    "10 uF",
    "10 nF",
    "47 pF",
    "6.81 kohm +-20 %",
    "5..20 mohm",
    "100 ohm +-1 ohm",
    "1 kohm +-10 ohm",
    "1e3 ohm",
    "0.1..0.2 Mohm",
    "3 m",
    "50 mm",
    "63 V",
    "0.25 W",
]
REFUSED = [
    "",
    "x",
    "4.7",
    "4.7 kohm ohm",
    "-4 ohm",
    "0 ohm",
    "2..1 ohm",
    "1..2 ohm +-1 ohm",
    "1 ohm +-1 V",
    "1 GHz",
    "1 __proto__",
    "1 constructor",
    "9" * 400 + " ohm",
    "unknown",
    "1 ohm\n2 ohm",
    "10 F/m",
]


@pytest.mark.parametrize("text", STRICT)
def test_a_quantity_is_read_as_the_catalogue_reads_it(node, text):
    known = parse(text)
    read = node(f"ui.quantity({json.dumps(text)}, {json.dumps(known.unit)})")["value"]
    assert read["unit"] == known.unit and read["text"] == text
    assert [read["nominal"], read["low"], read["high"]] == pytest.approx(
        [known.nominal, known.low, known.high], rel=1e-15
    )


def test_what_is_no_resistance_is_refused(node):
    read = node(f"{json.dumps(REFUSED)}.map((text) => ui.quantity(text, 'ohm'))")
    for text, found in zip(REFUSED, read, strict=True):
        assert set(found) == {"fault"}, text
    assert node("ui.quantity('4.7', 'ohm').fault") == "Write a number and a unit, such as 4.7 kohm."


@pytest.mark.parametrize(
    "typed, unit, tidied",
    [
        ("4k7", "ohm", "4.7 kohm"),
        ("4,7 kΩ", "ohm", "4.7 kohm"),
        ("4.7K", "ohm", "4.7 kohm"),
        ("680", "ohm", "680 ohm"),
        ("680R", "ohm", "680 ohm"),
        ("1M", "ohm", "1 Mohm"),
        ("2M2", "ohm", "2.2 Mohm"),
        ("10 ohms", "ohm", "10 ohm"),
        ("4.7 kohm", "ohm", "4.7 kohm"),
        ("10u", "F", "10 uF"),
        ("10µF", "F", "10 uF"),
        ("100nf", "F", "100 nF"),
        ("63", "V", "63 V"),
        ("3m", "m", "3 m"),
        ("3", "m", "3 m"),
        ("0,5 m", "m", "0.5 m"),
        ("20 cm", "m", "20 cm"),
    ],
)
def test_values_as_people_type_them(node, typed, unit, tidied):
    assert node(f"ui.tidied({json.dumps(typed)}, {json.dumps(unit)})") == tidied


def test_a_bare_number_of_farads_is_not_guessed(node):
    """10 may be picofarads or microfarads; a guess would be wrong by a million."""
    assert "fault" in node("bench.part('capacitor', ['a.1', 'b.1'], '10', '')")


# Addresses

WIRINGS = [
    "#ends=xlr-3/female,phone-635-ts/plug&joins=a.1_a.3_b.sleeve,a.2_b.tip",
    "#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1,a.2_b.2,a.3_b.3&cable=mic-pair&length=3m",
    "#ends=xlr-3/female,xlr-3/male&joins=a.1,a.2_b.2,a.3_b.3&cable=mic-pair&length=3m&screen=a.1",
    "#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1&parts=resistor:a.2_b.2:680ohm@0.25W,capacitor:a.3_p:10uF@63V,resistor:p_b.3:1kohm",
    "#ends=xlr-3/female,phone-635-ts/plug&joins=a.1_b.sleeve&parts=transformer:a.2_a.3_b.tip_b.sleeve:1:10",
    "#ends=phone-35-trs/plug,rca/plug,rca/plug&joins=a.tip_b.centre,a.ring_c.centre,a.sleeve_b.shell_c.shell&cable=unbalanced-coax&length=1m&screen=none",
]


@pytest.mark.parametrize("address", WIRINGS)
def test_an_address_reproduces_the_wiring(node, address):
    read = node(f"bench.read({json.dumps(address)})")
    assert read["unknown"] == []
    assert node(f"bench.write(bench.read({json.dumps(address)}).wiring)") == address
    assert node(f"bench.missing(bench.read({json.dumps(address)}).wiring)") == []


HOSTILE = [
    ("ends=<img src=x onerror=alert(1)>,xlr-3/male", "<img src=x onerror=alert(1)>"),
    ("ends=xlr-3/constructor", "xlr-3/constructor"),
    ("ends=__proto__/female", "__proto__/female"),
    ("ends=xlr-3/female/more", "xlr-3/female/more"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.9_b.1", "a.9_b.1"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1_b.1,a.1_b.2", "a.1_b.2"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1_a.1", "a.1_a.1"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1_c.1", "a.1_c.1"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1_q", "a.1_q"),
    ("ends=xlr-3/female,xlr-3/male&joins=a.1", "a.1"),
    ("ends=xlr-3/female,xlr-3/male&parts=diode:a.1_b.1:1V", "diode:a.1_b.1:1V"),
    ("ends=xlr-3/female,xlr-3/male&parts=constructor:a.1_b.1:1V", "constructor:a.1_b.1:1V"),
    ("ends=xlr-3/female,xlr-3/male&parts=resistor:a.1_b.1:lots", "resistor:a.1_b.1:lots"),
    ("ends=xlr-3/female,xlr-3/male&parts=resistor:a.1_b.1:1kohm@much", "resistor:a.1_b.1:1kohm@much"),
    ("ends=xlr-3/female,xlr-3/male&parts=transformer:a.1_b.1_a.2_b.2:0:1", "transformer:a.1_b.1_a.2_b.2:0:1"),
    ("ends=xlr-3/female,xlr-3/male&cable=constructor", "constructor"),
    ("ends=xlr-3/female,xlr-3/male&cable=mic-pair&length=far", "far"),
    ("ends=xlr-3/female,xlr-3/male&screen=a.9", "a.9"),
    ("ends=rca/plug,rca/plug,rca/plug,rca/plug", "4 ends; a bench has room for 3"),
    ("end=rca/plug", "end"),
    ("ends=" + "x" * 500, "x" * 80 + "…"),
]


@pytest.mark.parametrize("address, told", HOSTILE, ids=[told[:30] for _, told in HOSTILE])
def test_what_is_not_understood_is_said(node, address, told):
    """A wiring with one join silently left out could be called safe; the page judges nothing while
    this list is not empty."""
    pairs = [part.split("=", 1) for part in address.split("&")]
    quoted = "&".join(f"{name}=" + "${encodeURIComponent(" + json.dumps(text) + ")}" for name, text in pairs)
    assert node(f"bench.read(`#{quoted}`).unknown") == [told]


def test_a_broken_percent_sign_breaks_nothing(node):
    assert node("bench.read('#ends=%E0%A4%A&joins=%').unknown.length") == 2


# What a hand does


def wiring(address):
    return f"bench.read({json.dumps(address)}).wiring"


def test_touching_two_contacts_joins_them_and_again_parts_them(node):
    start = wiring("#ends=xlr-3/female,xlr-3/male")
    assert node(f"bench.touch({start}, 'a.1', 'b.1').joins") == [["a.1", "b.1"]]
    assert node(f"bench.touch(bench.touch({start}, 'a.1', 'b.1'), 'b.1', 'a.3').joins") == [
        ["a.1", "a.3", "b.1"]
    ]
    assert node(
        f"bench.touch(bench.touch(bench.touch({start}, 'a.1', 'b.1'), 'b.1', 'a.3'), 'b.1', 'a.3').joins"
    ) == [["a.1", "b.1"]]
    assert node(f"bench.touch(bench.touch({start}, 'a.1', 'b.1'), 'a.1', 'b.1').joins") == []
    assert node(
        f"bench.touch(bench.touch(bench.touch({start}, 'a.1', 'b.1'), 'a.2', 'b.2'), 'a.1', 'b.2').joins"
    ) == [["a.1", "a.2", "b.1", "b.2"]]


def test_another_end_keeps_the_joins_it_still_has(node):
    changed = f"bench.setEnd({wiring(WIRINGS[0])}, 1, 'rca/plug')"
    assert node(f"{changed}.joins") == [["a.1", "a.3"]]
    assert node(f"bench.missing({changed})") == ["Nothing is joined to the RCA plug yet."]


def test_a_conductor_can_only_be_cut_off_in_a_cable(node):
    assert node(f"bench.cutOff({wiring('#ends=xlr-3/female,xlr-3/male')}, 'a.1').joins") == []
    assert node(
        f"bench.cutOff({wiring('#ends=xlr-3/female,xlr-3/male&cable=mic-pair&length=3m')}, 'a.1').joins"
    ) == [["a.1"]]


def test_a_point_that_leads_nowhere_is_said(node):
    said = node(
        f"bench.missing({wiring('#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1&parts=resistor:a.2_p:1kohm')})"
    )
    assert said == ["Only one thing touches point p, so nothing can flow there."]


# The drawing


def test_a_join_is_drawn_as_the_lead_is_made(node):
    """One wire from plug to plug, and links inside a plug; never two lines where there is one."""
    runs = node(
        f"(() => {{ const w = {wiring(WIRINGS[5])}; return bench.runs(w, "
        "bench.layout(w)).map((run) => [run.what.join(), run.from, run.to, run.first]); })()"
    )
    assert [run[0] for run in runs] == [
        "a.tip,b.centre",
        "a.ring,c.centre",
        "a.sleeve,b.shell,c.shell",
        "a.sleeve,b.shell,c.shell",
    ]
    assert all(run[1]["side"] == "left" and run[2]["side"] == "right" for run in runs)
    runs = node(
        f"(() => {{ const w = {wiring(WIRINGS[0])}; return bench.runs(w, "
        "bench.layout(w)).map((run) => [run.from.side, run.to.side]); })()"
    )
    assert runs == [["left", "right"], ["left", "left"], ["left", "right"]]


def test_every_contact_has_its_own_place(node):
    places = node(
        f"(() => {{ const w = {wiring(WIRINGS[3])}; return [...bench.layout(w).at].map(([node, "
        "at]) => [node, at.side, at.y]); })()"
    )
    assert [place[0] for place in places] == ["a.1", "a.2", "a.3", "b.1", "b.2", "b.3", "p"]
    assert len({(side, y) for _, side, y in places}) == len(places)


# The flat lead, and which known one it is


def test_a_part_whose_rating_nobody_gave_counts_as_not_known(node):
    lead = node(f"bench.lead({wiring(WIRINGS[3])})")
    assert [(limit["part"], limit["quantity"], limit["settled"]) for limit in lead["network"]["limits"]] == [
        ("resistor-1", "watts", 0.25),
        ("capacitor-1", "volts", 63),
        ("resistor-2", "watts", None),
    ]


def as_address(lead):
    """The bench's address of a lead of the catalogue that has no parts, or None where a
    bench cannot hold it."""
    if lead.parts or len(lead.ends) > 3:
        return None
    names = dict(zip(lead.ends, "abc"))
    ends = ",".join(f"{end.connector}/{end.half}" for end in lead.ends.values())
    joins = ",".join(
        "_".join(f"{names[node.split('.')[0]]}.{node.split('.')[1]}" for node in join.nodes)
        for join in lead.joins
    )
    screen = next((join.nodes[0] for join in lead.joins if join.screen), None)
    cable = (
        f"&cable={lead.cable}&length={lead.length:g}m&screen="
        + (f"{names[screen.split('.')[0]]}.{screen.split('.')[1]}" if screen else "none")
        if lead.cable
        else ""
    )
    return f"#ends={ends}&joins={joins}{cable}".replace("+", "%2B")


def test_every_lead_of_wire_is_known_again_when_it_is_laid_out_on_the_bench(node, catalogue):
    addresses = {lead.id: as_address(lead) for lead in catalogue.leads.values()}
    addresses = {id: address for id, address in addresses.items() if address}
    assert len(addresses) > 40
    found = node(f"""Object.fromEntries(Object.entries({json.dumps(addresses)}).map(([id, address]) => {{
      const {{ wiring, unknown }} = bench.read(address), lead = bench.lead(wiring);
      return [id, {{ unknown, equal: bench.known(lead, wiring).equal.map((other) => other.id), values: lead.network.parts.filter((part) => part.value).map((part) => [part.kind, part.value.nominal, part.value.high]).sort() }}];
    }}))""")
    for id, told in found.items():
        assert told["unknown"] == [], id
        assert id in told["equal"], f"{id} is taken for {told['equal']}"
        theirs = sorted(
            [part.kind, part.value.nominal, part.value.high]
            for part in catalogue.leads[id].network.parts
            if part.value
        )
        assert sorted(told["values"]) == theirs, id


def known(node, address):
    return node(
        f"(() => {{ const w = {wiring(address)}; const k = bench.known(bench.lead(w), w); "
        "return { equal: k.equal.map((l) => l.id), near: k.near.map((n) => [n.lead.id, n.differs]) }; "
        "})()"
    )


def test_the_other_way_round_is_the_same_lead(node):
    assert known(node, "#ends=phone-635-ts/plug,xlr-3/female&joins=b.1_b.3_a.sleeve,b.2_a.tip")["equal"] == [
        "xlr-f-to-635-ts-3-to-1"
    ]


def test_a_lead_with_parts_is_known_by_their_values(node):
    pad = "#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1&parts=resistor:b.2_a.2:680ohm,resistor:a.3_b.3:680ohm,resistor:b.2_b.3:150ohm"
    assert known(node, pad)["equal"] == ["xlr-f-to-xlr-m-pad-20-db"]
    other = known(node, pad.replace("150", "151"))
    assert other["equal"] == []
    assert [
        "xlr-f-to-xlr-m-pad-20-db",
        [
            "it has a resistor 150 Ω from 2 of XLR-3 male to 3 of XLR-3 male",
            "it has no resistor 151 Ω from 2 of XLR-3 male to 3 of XLR-3 male",
        ],
    ] in other["near"]


def test_the_nearest_leads_are_told_with_what_differs(node):
    near = dict(
        known(
            node,
            "#ends=xlr-3/female,phone-635-ts/plug&joins=a.2_b.tip,a.1_a.3_b.sleeve&parts=resistor:a.2_a.3:1kohm",
        )["near"]
    )
    assert near["xlr-f-to-635-ts-3-to-1"] == [
        "it has no resistor 1 kΩ from 1 of XLR-3 female to 2 of XLR-3 female"
    ]
    assert "1 of XLR-3 female is not joined to 3 of XLR-3 female" in near["xlr-f-to-635-ts-3-open"]


def test_the_engine_judges_the_lead_on_the_bench_as_it_judges_its_twin_in_the_catalogue(node):
    same = node(f"""(() => {{
      const lead = bench.lead({wiring(WIRINGS[1])}), strip = ({{ verdict, findings, settings }}) => ({{ verdict, settings, findings: findings.map((one) => [one.id, one.value]) }});
      const ask = (id) => strip(Ringfence.judge(bench.withLead(lead), Ringfence.rulebook, {{ from: "mic-condenser-p48-xlr", through: [id], into: "mixer-mic-in-p48-xlr" }}));
      return [ask(bench.ID), ask("xlr-f-to-xlr-m-3m"), Object.keys(Ringfence.data.leads).includes(bench.ID)];
    }})()""")
    assert same[0] == same[1] and same[2] is False


# The file for the catalogue

NAMES = [
    "",
    "My lead: #1 {x} [y] 'q' \"z\" & *a !b %c @d `e`",
    "- no",
    "null",
    "\u202eabc\u0000\u001b[0m\n\r\u2028",
    "näme ½ 🎤",
    "x" * 500,
    "\ud800 lone",
    "xlr-f-to-xlr-m-3m",
    "123 go",
]


@pytest.mark.parametrize("address", WIRINGS)
def test_the_file_loads_without_a_fault_and_builds_the_same_lead(node, address, tmp_path, catalogue):
    made = node(
        f"(() => {{ const w = {wiring(address)}; return {{ ...bench.yaml(w, {{ name: "
        "'A lead from the bench', note: '', grade: 'from memory', date: '2026-11-25' }), lead: "
        "bench.lead(w) }; })()"
    )
    folder = tmp_path / "pinouts"
    shutil.copytree(default_directory(), folder)
    assert made["path"] == "pinouts/leads/a-lead-from-the-bench.yaml"
    (tmp_path / made["path"]).write_text(made["text"])
    lead = as_data(load(folder))["leads"]["a-lead-from-the-bench"]
    wanted = made["lead"]
    assert plain(lead["joins"]) == wanted["joins"] and list(lead["ends"]) == list(wanted["ends"])
    assert (lead["form"], lead["length"], lead["cable"], lead["impedance"]) == (
        wanted["form"],
        wanted["length"],
        wanted["cable"],
        wanted["impedance"],
    )

    def bare(network):
        """Without how the value was written, and without the date of the evidence."""
        parts = [
            {**part, "value": part["value"] and {**part["value"], "text": ""}} for part in network["parts"]
        ]
        return {
            "parts": parts,
            "couplings": network["couplings"],
            "limits": [{**limit, "evidence": None} for limit in network["limits"]],
        }

    assert bare(plain(lead["network"])) == bare(wanted["network"])


def test_no_name_can_break_the_file(node, tmp_path):
    folder = tmp_path / "pinouts"
    shutil.copytree(default_directory(), folder)
    before = set(load(folder).leads)
    made = node(
        f"{json.dumps(NAMES)}.map((name) => bench.yaml({wiring(WIRINGS[0])}, {{ name, note: name, grade: "
        "name, date: '2026-11-25' }))"
    )
    for number, file in enumerate(made):
        id = file["path"].removeprefix("pinouts/leads/").removesuffix(".yaml")
        assert id not in before, "an existing lead would be overwritten"
        (folder / f"leads/{id}-{number}.yaml").write_text(file["text"], "utf-8")
    leads = load(folder).leads
    assert len(leads) == len(before) + len(NAMES)
    names = {leads[id].name for id in set(leads) - before}
    assert (
        "My lead: #1 {x} [y] 'q' \"z\" & *a !b %c @d `e`" in names
        and "null" in names
        and "näme ½ 🎤" in names
    )
    assert {leads[id].evidence.grade for id in set(leads) - before} == {"from memory"}
