"""What is this plug: which question comes next, what an answer rules out, the address; the page without
scripts, and the facts on record pages."""

import json
import re

import pytest
import yaml
from front import SCRIPTS, run, scripts

from generator.catalogue.kinds_connectors import SEEN
from generator.catalogue.published import as_data
from generator.site import bundles, looks
from generator.site.bundles import scripts_of

LOADED = scripts(
    "ui/dom.js", "ui/words.js", "recognise/questions.js", "recognise/narrow.js", "recognise/address.js"
)
READY = """const recognise = Ringfence.recognise;
const plugs = Object.entries(Ringfence.plugs.connectors).map(([id, plug]) => ({ id, ...plug }));
const questions = recognise.questions(plugs, Ringfence.plugs.words);
  const given = recognise.read(HASH, questions);"""


@pytest.fixture(scope="module")
def node(catalogue, tmp_path_factory):
    """A function (hash, expression) on the real connectors."""
    file = tmp_path_factory.mktemp("recognise") / "data.json"
    file.write_text(json.dumps({"plugs": looks.published(catalogue)}))
    return lambda hash, expression: run(
        f"(() => {{ {READY.replace('HASH', json.dumps(hash))} return {expression}; }})()", LOADED, file
    )


def left(node, hash):
    return set(node(hash, "recognise.left(plugs, questions, given).map(({ id }) => id)"))


def test_every_choice_of_the_catalogue_has_words():
    assert {key: set(words) for key, words in looks.WORDS.items()} == {
        key: set(options) for key, options in SEEN.items()
    }


def test_every_connector_is_found_by_truthful_answers(node, catalogue):
    """Whoever sees what the record says is never led away from it, ends within six questions, and ends with
    none that one of them tells apart."""
    walks = node(
        "",
        """Object.fromEntries(plugs.map((plug) => {
      const answers = [];
      for (let question; (question = recognise.next(plugs, questions, answers));)
        answers.push({ question: question.id, answer: question.answers.find((one) =>
          one.fits(plug.looks)).id });
      return [plug.id, { asked: answers.map((one) => one.question), left: recognise.left(plugs, questions,
        answers).map(({ id }) => id) }]; }))""",
    )
    assert set(walks) == set(catalogue.connectors)
    for connector, walk in walks.items():
        assert connector in walk["left"] and len(walk["asked"]) <= 6, (connector, walk)
        assert len(walk["left"]) <= 3, (connector, walk)
    assert sum(len(walk["asked"]) for walk in walks.values()) / len(walks) < 4.5


def test_the_next_question_leaves_the_fewest(node):
    """Worked out again by hand: for every question the plugs that share an answer, squared, over all."""
    got = node(
        "",
        """[recognise.next(plugs, questions, []).leaves, questions.filter((one) => !one.last &&
      !one.when).map((question) =>
      plugs.reduce((sum, plug) => { const right = question.answers.filter((one) => one.fits(plug.looks));
        return sum + right.reduce((all, one) => all + plugs.filter((other) => one.fits(other.looks)).length,
          0) / right.length; }, 0) / plugs.length)]""",
    )
    assert got[0] == pytest.approx(min(got[1])) and got[0] < 15


def test_not_sure_rules_nothing_out_and_is_not_asked_again(node, catalogue):
    first = node("", "recognise.next(plugs, questions, given).id")
    assert left(node, f"#{first}=unsure") == set(catalogue.connectors)
    assert node(f"#{first}=unsure", "recognise.next(plugs, questions, given).id") != first


def test_none_of_these_leaves_nothing_rather_than_a_near_match(node):
    assert left(node, "#contacts=other") == set()
    assert node("#contacts=other", "recognise.next(plugs, questions, given)") is None


def test_answers_rule_out_what_they_should(node):
    assert left(node, "#shape=D&contacts=many&count=25") == {"d-sub-25"}
    found = left(node, "#shape=round&contacts=3&thick=5")
    assert "xlr-3" in found and not found & {"mini-xlr-3", "din-3", "xlr-4"}
    assert {"rca", "dc-barrel-55-21"} & left(node, "#shape=rod") == set()


def test_a_size_at_the_edge_of_a_band_is_kept_on_both_sides(node):
    """8.3 mm is on either side of 8 mm to the eye."""
    assert "rca" in left(node, "#thick=2") & left(node, "#thick=3")
    assert "rca" not in left(node, "#thick=4")


def test_a_slot_in_one_half_is_a_ridge_in_the_other(node):
    assert {"xlr-3", "push-pull-5", "din-3"} <= left(node, "#key=key")


def test_either_fits_metal_and_plastic(node):
    assert "combo-xlr-3" in left(node, "#shell=metal") & left(node, "#shell=plastic")
    assert "combo-xlr-3" not in left(node, "#shell=none")


def test_a_connector_whose_looks_nobody_wrote_is_never_ruled_out(node):
    assert node(
        "#shape=rod&contacts=other",
        "recognise.left([...plugs, { id: 'new', looks: {} }], questions, given).map(({ id }) => id)",
    ) == ["new"]


def test_one_wrong_answer_is_found_again(node):
    """An XLR taken for one that nothing holds is one answer away."""
    near = node(
        "#shape=round&contacts=3&thick=5&latch=none",
        "recognise.near(plugs, questions, given).map(({ plug, question }) => [plug.id, question.id])",
    )
    assert ["xlr-3", "latch"] in near and all(plug != "rj45" for plug, _ in near)


@pytest.mark.parametrize(
    "hash, read",
    [
        ("#shape=rod&rings=2", [["shape", "rod"], ["rings", "2"]]),
        ("#rings=unsure&shape=other", [["rings", "unsure"], ["shape", "other"]]),
        ("#shape=rod&shape=D", [["shape", "rod"]]),
        ("#shape=<img>&__proto__=x&constructor=unsure&shape=round", [["shape", "round"]]),
        ("", []),
    ],
)
def test_the_address_holds_the_answers_and_nothing_else(node, hash, read):
    assert node(hash, "given.map(({ question, answer }) => [question, answer])") == read
    assert node(hash, "recognise.read(recognise.write(given), questions)") == node(hash, "given")


def test_twins_are_named_with_what_tells_them_apart(catalogue):
    of = lambda name: looks.alike(catalogue, catalogue.connectors[name])
    assert of("xlr-3")["mini-xlr-3"] == ["10 mm across"] and of("xlr-3")["xlr-4"] == ["4 contacts"]
    assert of("dc-barrel-55-21")["dc-barrel-55-25"] == []  # by eye nothing tells them apart
    assert of("phone-35-trs")["phone-35-trs-locking"] == ["held by: a thread"]
    assert "d-sub-9" not in of("xlr-3") and all(name not in of(name) for name in catalogue.connectors)


def test_what_goes_into_one_hole_is_taken_for_the_other(catalogue):
    """common practice: a combined socket takes both plugs, and nobody takes a banana for either"""
    of = lambda name: looks.alike(catalogue, catalogue.connectors[name])
    for name, count in (("phone-35-ts", "2 contacts"), ("phone-35-trs", "3 contacts")):
        assert of("optical-round-35")[name] == [count, "shell: metal"]
        assert of(name)["optical-round-35"] == ["1 contact", "shell: plastic"]
        assert "combo-optical-35" in of(name)
    assert of("banana-4-pair") == {}
    assert not any("banana-4-pair" in of(name) for name in catalogue.connectors)


def test_without_scripts_the_page_is_a_table_of_every_connector(tree, catalogue):
    page = tree["recognise.md"].decode()
    assert "The questions need scripts, and they are not running." in page
    rows = re.findall(r'<tr><th scope="row"><a href="\.\./connectors/([^/]+)/">', page)
    assert sorted(rows) == sorted(catalogue.connectors)
    assert "<td>two screws</td>" in page and "<td>39 mm across</td>" in page


def test_the_page_loads_little(tree):
    wanted = json.loads(re.search(r"^scripts: (\[.*\])$", tree["recognise.md"].decode(), re.MULTILINE)[1])
    assert wanted == scripts_of("plugs", "ui", "recognise") and set(wanted) <= set(tree)
    assert len(tree["assets/js/plugs.js"]) < 100_000


def test_the_navigation_the_style_and_the_connectors_lead_to_it(tree):
    config = yaml.load((SCRIPTS.parents[2] / "mkdocs.yml").read_text(), yaml.BaseLoader)
    guides = next(part["Guides"] for part in config["nav"] if "Guides" in part)
    assert {"What is this plug?": "recognise.md"} in guides and b".rf-recognise" in tree[bundles.TOOLS]
    assert (
        'href="../recognise/"' in tree["connectors/index.md"].decode()
        and 'href="../../recognise/"' in tree["connectors/xlr-3.md"].decode()
    )


def test_record_pages_tell_what_one_sees(tree, catalogue):
    page = tree["connectors/d-sub-25.md"].decode()
    assert "<dt>Shape</dt><dd>a flat D</dd>" in page and "<dt>Held by</dt><dd>two screws</dd>" in page
    twins = tree["connectors/xlr-3.md"].decode().split("## Easily taken for")[1].split("## ")[0]
    assert (
        "../../connectors/mini-xlr-3/" in twins
        and "10 mm across. Looks like an XLR at half the size" in twins
    )
    told = next(one for one in catalogue.assignments.values() if one.id == "bnc-timecode")
    assert told.recognise in tree["assignments/bnc-timecode.md"].decode()


@pytest.mark.parametrize("kind", ("connectors", "assignments", "ports", "leads"))
def test_other_names_stand_on_the_page_where_the_search_finds_them(kind, tree, catalogue):
    named = [record for record in getattr(catalogue, kind).values() if record.also_called]
    assert named
    for record in named:
        page = (
            tree[f"{kind}/{record.id}.md"]
            .decode()
            .replace("&#39;", "'")
            .replace("&#34;", '"')
            .replace("&amp;", "&")
        )
        assert all(name in page for name in record.also_called), record.id


def test_the_pickers_find_other_names_of_port_connector_and_assignment(catalogue, tmp_path):
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"data": as_data(catalogue)}))
    found = run(
        """[...ui.outlets(), ...ui.inlets(), ...ui.leads()].flatMap((entry) => {
      const places = entry.ends ? Object.values(entry.ends) : [entry];
      const assignment = Ringfence.data.assignments[entry.assignment];
      const names = [...entry.also_called,
        ...places.flatMap((place) => ui.connector(place.connector).also_called),
        ...(assignment ? assignment.also_called : [])];
      return names.filter((name) => !ui.matches(entry, name.toUpperCase())).map((name) => [entry.id, name]);
        })""",
        scripts("ui/dom.js", "ui/words.js", "ui/catalogue.js"),
        file,
    )
    assert found == []


def test_a_picker_without_other_names_finds_by_the_names_it_has(catalogue, tmp_path):
    """The check has them from the search, and asks for no second list of them."""
    data = as_data(catalogue)
    for kind in ("connectors", "assignments", "ports", "leads"):
        for record in data[kind].values():
            del record["also_called"]
    file = tmp_path / "data.json"
    file.write_text(json.dumps({"data": data}))
    missed = run(
        "[...ui.outlets(), ...ui.inlets(), ...ui.leads()].filter((entry) => !ui.matches(entry, "
        "entry.name)).map(({ id }) => id)",
        scripts("ui/dom.js", "ui/words.js", "ui/catalogue.js"),
        file,
    )
    assert missed == []
