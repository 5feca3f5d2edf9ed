"""The pages: every record has one at its published address, every link leads somewhere, and
no text becomes markup."""

import re
from urllib.parse import unquote

import pytest

from generator.engine.rulebook import rules
from generator.site.build import docs
from generator.site.page import KINDS, Page
from generator.site.templates import markdown

LINK = re.compile(r'(?:href|src)="([^"]*)"')


def address(path: str) -> str:
    """The address mkdocs gives a Markdown file when it uses directory URLs."""
    return re.sub(r"(^|/)index$", r"\1", path.removesuffix(".md")).rstrip("/") + (
        "/" if path != "index.md" else ""
    )


def test_every_record_has_its_page_and_drawing(catalogue, tree):
    for kind in KINDS:
        for record in getattr(catalogue, kind):
            assert f"{kind}/{record}.md" in tree
            assert f"draw/{kind[:-1]}-{record}.svg" in tree
    assert {
        "index.md",
        "check.md",
        "matrix.md",
        "methods.md",
        "sources.md",
        *(f"{kind}/index.md" for kind in KINDS),
    } <= set(tree)


def test_the_front_page_is_the_check(tree):
    assert b'id="rf-check"' in tree["index.md"] and b'id="rf-check"' in tree["check.md"]


def test_every_link_leads_to_a_file(tree):
    addresses = {address(path) for path in tree if path.endswith(".md")} | set(tree)
    for path, content in tree.items():
        if not path.endswith(".md"):
            continue
        here = address(path)
        for link in LINK.findall(content.decode()):
            target = unquote(link.split("#")[0])
            if not target:
                continue
            assert ":" not in target, f"{path} links outside: {link}"
            parts = here.split("/")[:-1]
            for step in target.split("/"):
                if step == "..":
                    parts.pop()
                elif step != ".":
                    parts.append(step)
            assert "/".join(parts) in addresses, f"{path} links to {link}, which is not there"


def test_a_port_tells_what_connects_to_it_without_scripts(tree):
    page = tree["ports/mixer-mic-in-p48-xlr.md"].decode()
    assert "What can be plugged into it" in page
    assert "#from=mic-dynamic-xlr&amp;through=xlr-f-to-xlr-m-3m&amp;into=mixer-mic-in-p48-xlr" in page


def test_every_record_page_shows_its_evidence_and_where_to_correct_it(catalogue, tree):
    for kind in KINDS:
        for record, facts in getattr(catalogue, kind).items():
            page = tree[f"{kind}/{record}.md"].decode()
            assert f"pinouts/{kind}/{record}.yaml" in page
            assert f">{facts.evidence.grade}</span>" in page


def test_a_hostile_name_stays_text(altered):
    page = altered["ports/mic-dynamic-xlr.md"].decode()
    assert "<script" not in page
    assert r"\*\*x\*\* \[y\]\(z\)" in page


def test_markdown_keeps_every_sign():
    assert markdown("a_b <i> 1. #x & 'q'") == r"a\_b &lt;i&gt; 1\. \#x &amp; &#39;q&#39;"


@pytest.mark.parametrize("path", ["ports/mic-ribbon-xlr.md", "leads/xlr-f-to-xlr-m-crossed-3m.md"])
def test_what_stands_in_a_file_of_ones_own_is_marked_as_local(tree, altered, path):
    mark = "<strong>Local.</strong> From a file of one's own, not part of the catalogue"
    assert mark in altered[path].decode() and mark not in tree[path].decode()


def test_a_moved_id_redirects_in_one_hop(altered):
    page = altered["ports/old-mic.md"].decode()
    assert 'redirect: "../../ports/mic-dynamic-xlr/"' in page
    assert 'href="../../ports/mic-dynamic-xlr/"' in page


def test_a_split_id_names_its_successors_and_redirects_nowhere(altered):
    page = altered["ports/split.md"].decode()
    assert "redirect:" not in page
    assert "ports/mic-dynamic-xlr/" in page and "ports/mic-ribbon-xlr/" in page


def test_a_page_links_from_where_it_stands(catalogue):
    assert Page("", "check", "", catalogue).to("ports/x/") == "ports/x/"
    assert Page("ports/x/", "port", "", catalogue).to("check/") == "../../check/"
    assert Page("check/", "check", "", catalogue).to("") == "../"
    assert Page("", "check", "", catalogue).to("") == "./"


def test_a_template_that_asks_for_what_is_not_there_fails(catalogue):
    with pytest.raises(AttributeError) as fault:
        _ = Page("matrix/", "matrix", "", catalogue).outlets
    assert str(fault.value) == "the page 'matrix/' shows no 'outlets'"


def test_every_rule_cites_sources_that_the_catalogue_has(catalogue):
    assert {source for rule in rules() for source in rule.cite} <= set(catalogue.sources)


def test_two_runs_are_equal(catalogue, rows, tree):
    assert docs(catalogue, rows) == tree
