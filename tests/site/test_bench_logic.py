"""The bench, run by node: the twin of the cable layer on every lead, what a hand does, the drawing."""

from dataclasses import asdict

import pytest
from bench_leads import WIRINGS, in_node, plain, wiring

from generator.catalogue import default_directory
from generator.catalogue.light import fibres
from generator.catalogue.published import as_data
from generator.catalogue.quantity import parse

node = pytest.fixture(scope="module")(in_node)


def test_every_lead_laid_again_is_the_one_the_catalogue_built(node, catalogue):
    laid = node("""Object.fromEntries(ui.leads().map((lead) => {
      const known = bench.stock()[lead.cable];
      const cable = known && { ...known, length: ui.quantity(`${lead.length} m`, "m").value };
      const parts = bench.lay(lead.joins, Object.keys(lead.ends), cable || null);
      return [lead.id, { parts, limits: bench.ratings(parts, cable, lead.length) }];
    }))""")
    made = {id for id, lead in catalogue.leads.items() if not fibres(lead, catalogue.connectors)}
    assert made < set(laid) == set(catalogue.leads) and len(made) > 50
    for id, lead in ((id, lead) for id, lead in as_data(catalogue)["leads"].items() if id in made):
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
    used = {
        lead.cable
        for lead in catalogue.leads.values()
        if lead.cable and not fibres(lead, catalogue.connectors)  # nobody makes those at a bench
    }
    assert set(stock) == used
    for id in used:
        file = cable_file(id)
        for figure in ("core", "screen", "core_to_core", "core_to_screen"):
            known = asdict(parse(file[figure])) if figure in file else None
            assert stock[id][figure] == known, f"{figure} of {id}"
        current = file["current"]  # with evidence of its own, a mapping
        assert stock[id]["amps"] == parse(current["value"] if isinstance(current, dict) else current).low
        assert stock[id]["impedance"] == (parse(file["impedance"]).nominal if "impedance" in file else None)


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
