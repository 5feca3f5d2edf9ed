"""The guides: what they say is what the engine says, every claim has its note, and every word they
lean on is explained."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from generator.catalogue.records import GRADES
from generator.engine.verdict import VERDICTS
from generator.engine import rulebook
from generator.engine.rulebook import rules
from generator.lessons import core
from generator.site.guides import GUIDES, MISFIT, Notes, chain, examples, pages, read
from generator.site.runs import with_sources
from generator.site.told_numbers import NUMBERS

FOLDER = Path(__file__).parents[2] / "site_src/guides"
EXAMPLES = read(FOLDER / "examples.yaml")
TERMS = read(FOLDER / "glossary.yaml") | rulebook.words()
ASKED = read(FOLDER / "asked.yaml")
SOURCES = {name: (FOLDER / f"{name}.md.j2").read_text() for name in GUIDES}


@pytest.fixture(scope="module")
def example(catalogue):
    return examples(catalogue, EXAMPLES)


@pytest.mark.parametrize("name", EXAMPLES)
def test_an_example_ends_as_the_text_says(example, name):
    """A guide prints the engine's word; this holds the prose around it to the same word and to the
    findings it explains."""
    row, asked = example(name), EXAMPLES[name]
    assert row is not None, "the example names a record that is not in the catalogue"
    assert row["verdict"] == asked["ends"]
    assert set(asked.get("because", ())) <= set(row["findings"])


def test_every_example_is_used_and_every_one_used_is_there():
    used = {
        name
        for text in SOURCES.values()
        for call in re.findall(r"g\.(?:examples|ends)\(([^)]*)\)", text)
        for name in re.findall(r"'([^']+)'", call)
    }
    assert used == set(EXAMPLES)


def test_examples_say_how_they_end_in_the_words_of_the_engine():
    assert {asked["ends"] for asked in EXAMPLES.values()} <= set(VERDICTS)
    assert all(set(asked) <= {"run", "ends", "because", "own"} for asked in EXAMPLES.values())


def test_no_name_stands_twice():
    """A second entry of the same name would silently replace the first."""
    for file in sorted(FOLDER.glob("*.yaml")):
        node = yaml.compose(file.read_text())
        if isinstance(node, yaml.MappingNode):
            names = [key.value for key, _ in node.value]
            assert len(names) == len(set(names)), file.name


def test_a_run_is_read_from_end_to_end():
    assert chain({"run": "mic > lead > box > desk"}) == ("mic", ("lead", "box"), "desk")
    assert chain({"run": "mic > desk"}) == ("mic", (), "desk")


def test_an_example_the_catalogue_lacks_is_left_out_and_the_page_says_so(catalogue):
    assert examples(catalogue, {"x": {"run": "nothing > mixer-line-in-xlr"}})("x") is None
    assert examples(catalogue, {"x": {"run": "mic-dynamic-xlr > nothing > mixer-line-in-xlr"}})("x") is None


def test_the_sentence_shown_is_of_the_finding_the_text_leans_on(example):
    assert example("adapter-mic-balanced")["says"].startswith("Polarity is reversed")


def test_guides_link_to_the_check_they_show(tree):
    page = tree["guides/balance.md"].decode()
    assert (
        'href="../../check/#from=mixer-line-out-xlr&amp;through=xlr-f-to-xlr-m-3m&amp;into=mixer-line-in-xlr"'
        in page
    )


def test_the_word_shown_is_the_engines_even_where_the_text_expects_another(catalogue, tmp_path):
    """With a lead that joins 2 to 1 under the old name, the card must change though
    nobody touched the text."""
    lead = replace(catalogue.leads["xlr-f-to-635-ts-3-to-1"], id="xlr-f-to-xlr-m-3m")
    row = examples(replace(catalogue, leads={**catalogue.leads, lead.id: lead}), EXAMPLES)("balanced-through")
    assert row["verdict"] == "does not fit" != EXAMPLES["balanced-through"]["ends"]


@pytest.mark.parametrize("name", GUIDES)
def test_no_verdict_is_typed_by_hand(name):
    """A typed verdict could disagree with the engine. Explaining one in the glossary, or naming a
    danger, is not a verdict."""
    if name != "glossary":
        text = re.sub(r"{[{%#].*?[}%#]}", "", SOURCES[name], flags=re.DOTALL).lower()
        assert not re.search(
            r"\b(lossy|no signal|does not fit|(is|are|ends|counts as) (safe|dangerous))\b", text
        )


@pytest.mark.parametrize("name", GUIDES)
def test_every_claim_is_graded_and_cites_what_is_there(name, catalogue):
    for call in re.findall(r"g\.known\(([^)]*)\)", SOURCES[name]):
        grade, *cite = re.findall(r"'([^']+)'", call)
        assert grade in GRADES
        assert set(cite) <= set(with_sources(catalogue).sources)
        assert cite or grade in ("common practice", "from memory"), f"a {grade} claim cites nothing"
        assert not cite or grade != "from memory"


def test_every_number_a_guide_tells_is_worked_out_and_every_one_worked_out_is_told():
    told = {name for text in SOURCES.values() for name in re.findall(r"page\.number\('([^']+)'\)", text)}
    assert told == set(NUMBERS)


def test_notes_are_numbered_at_first_mention_and_shared():
    notes = Notes()
    assert [
        notes.number("published", ("a",)),
        notes.number("standard", ("a",)),
        notes.number("published", ("a",)),
    ] == [1, 2, 1]
    assert notes.all == {1: ("published", ("a",)), 2: ("standard", ("a",))}


@pytest.mark.parametrize("name", GUIDES)
def test_every_note_is_listed_and_every_picture_has_its_own_ids(name, tree):
    page = tree[f"guides/{name}.md"].decode()
    assert set(re.findall(r'href="#(note-\d+)"', page)) == set(re.findall(r'id="(note-\d+)"', page))
    ids = re.findall(r'\sid="([^"]+)"', page)
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", GUIDES)
def test_every_picture_a_guide_asks_for_is_drawn(name, catalogue):
    known = {*catalogue.connectors, *catalogue.assignments, *catalogue.ports, *catalogue.leads}
    asked = {
        id
        for call in re.findall(r"page\.picture\.(?:of|mated)\(([^)]*)\)", SOURCES[name])
        for id in re.findall(r"'([^']+)'", call)
    }
    assert asked - {"male", "female", "plug", "jack", "face", "solder"} <= known


@pytest.mark.parametrize(
    "name",
    ("plugs", "powering", "adapters", "headsets", "levels", "order", "hum", "fields", "radio", "myths"),
)
def test_guides_on_work_that_can_hurt_carry_cautions(name, tree):
    assert 'class="rf-caution"' in tree[f"guides/{name}.md"].decode()


def test_every_guide_is_in_the_navigation_and_the_index(tree):
    nav = (Path(__file__).parents[2] / "mkdocs.yml").read_text()
    index = tree["guides/index.md"].decode()
    for name, (title, _) in GUIDES.items():
        assert f"- {title}: guides/{name}.md" in nav
        assert f'href="../guides/{name}/"' in index


def test_guides_of_a_catalogue_without_their_records_are_still_made(catalogue):
    bare = replace(catalogue, ports={}, leads={}, assignments={}, connectors={}, sources={})
    for page in pages(bare, FOLDER, TERMS):
        if page.address != "guides/":
            assert page.picture.of("xlr-3") == "" == page.picture.mated("phone-635-ts", "phone-635-trs")
            assert page.example("balanced-through") is None


# --- What it comes to, and what is asked at its end ---


def answered(text):
    """The paragraph after the heading, as a reader sees it."""
    opening = re.search(r"^# [^\n]*\n\n(.*?)\n\n", text, re.MULTILINE | re.DOTALL)[1]
    assert opening.startswith('<p class="rf-answered">'), "something else stands before the answer"
    return re.sub(
        r"\s+", " ", re.sub(r"<sup.*?</sup>|<span class=\"rf-grade.*?</span>|<[^>]+>", "", opening)
    ).strip()


@pytest.mark.parametrize("name", GUIDES)
def test_a_guide_opens_with_its_answer_in_two_sentences(name, tree):
    said = answered(tree[f"guides/{name}.md"].decode())
    assert len(re.findall(r"[.!?](?= |$)", said)) == 2, said
    assert len(said.split()) <= 60, said


def test_every_guide_asks_three_different_questions_of_the_reviewed_core():
    assert set(ASKED) == set(GUIDES)
    for name, ids in ASKED.items():
        assert len(set(ids)) == 3 and set(ids) <= set(core()), name


@pytest.mark.parametrize("name", GUIDES)
def test_the_questions_open_in_place_with_one_right_answer(name, tree):
    """Those of this small ledger: the page of the whole catalogue has three of each."""
    page = tree[f"guides/{name}.md"].decode()
    asked = re.findall(r'<details class="rf-group rf-quiz">.*?\n</details>', page, re.DOTALL)
    assert len(asked) == len(re.findall('rf-quiz"><summary>', page))
    for one in asked:
        assert one.count('class="rf-quiz__right"') == 1 or "Show the order" in one
        assert "The working</a>" in one and "evidence:" in one


# --- The glossary ---


def test_the_words_that_open_in_place_are_the_glossarys(tree):
    script = tree["assets/js/glossary.js"].decode()
    told = json.loads(re.search(r"Ringfence\.glossary = (.*);\n", script)[1])
    assert told == {anchor: [entry["term"], entry["says"]] for anchor, entry in TERMS.items()}


def test_every_finding_has_its_word():
    assert {rule.id for rule in rules()} | {MISFIT} <= set(TERMS)


def test_every_word_a_guide_links_to_is_explained():
    linked = {anchor for text in SOURCES.values() for anchor in re.findall(r"g\.word\('([^']+)'", text)}
    assert linked and linked <= set(TERMS)


def test_entries_are_complete_and_no_word_has_two_meanings():
    words = [
        word.lower()
        for entry in TERMS.values()
        for word in (entry["term"], *entry.get("also", ()), *entry.get("forms", ()))
    ]
    assert sorted(words) == sorted(set(words))
    for entry in TERMS.values():
        assert set(entry) <= {"term", "also", "forms", "says", "linked"} and entry["says"].endswith(".")
