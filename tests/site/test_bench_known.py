"""Which known lead lies on the bench, run by node, and the file that tells it to the catalogue."""

import json
import shutil

import pytest
from bench_leads import WIRINGS, in_node, plain, wiring

from generator.catalogue import default_directory, load
from generator.catalogue.published import as_data

node = pytest.fixture(scope="module")(in_node)


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
    if lead.parts or len(lead.ends) > 3 or sum(join.screen for join in lead.joins) > 1:
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
    fibres = {one.id for one in catalogue.connectors.values() if one.light}  # nobody makes these at a bench
    addresses = {
        lead.id: as_address(lead)
        for lead in catalogue.leads.values()
        if not any(end.connector in fibres for end in lead.ends.values())
    }
    addresses = {id: address for id, address in addresses.items() if address}
    assert len(addresses) > 40
    found = node(f"""Object.fromEntries(Object.entries({json.dumps(addresses)}).map(([id, address]) => {{
      const {{ wiring, unknown }} = bench.read(address), lead = bench.lead(wiring);
      return [id, {{ unknown, equal: bench.known(lead, wiring).equal.map((other) => other.id),
        values: lead.network.parts.filter((part) => part.value).map((part) => [part.kind, part.value.nominal,
        part.value.high]).sort() }}];
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
    pad = (
        "#ends=xlr-3/female,xlr-3/male&joins=a.1_b.1"
        "&parts=resistor:b.2_a.2:680ohm,resistor:a.3_b.3:680ohm,resistor:b.2_b.3:150ohm"
    )
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
      const lead = bench.lead({wiring(WIRINGS[1])}), strip = ({{ verdict, findings, settings }}) =>
        ({{ verdict, settings, findings: findings.map((one) => [one.id, one.value]) }});
      const ask = (id) => strip(Ringfence.engine.judge(bench.withLead(lead), Ringfence.rulebook,
        {{ from: "mic-condenser-p48-xlr", through: [id], into: "mixer-mic-in-p48-xlr" }}));
      return [ask(bench.ID), ask("xlr-f-to-xlr-m-3m"), Object.keys(Ringfence.data.leads).includes(bench.ID)];
    }})()""")
    assert same[0] == same[1] and same[2] is False


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
