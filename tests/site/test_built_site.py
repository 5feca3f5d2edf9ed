"""What mkdocs makes of the docs tree: builds without a warning, keeps the published addresses, asks
nothing of other hosts."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator.site.finish import finish
from generator.site.page import KINDS
from generator.site.tree import write

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def site(tmp_path_factory, altered):
    """The folder of the built site of a catalogue with hostile names and retired ids. Strict: a
    warning is a failure."""
    folder = tmp_path_factory.mktemp("site")
    write(altered, folder / "docs")
    config = load_config(
        str(ROOT / "mkdocs.yml"), docs_dir=str(folder / "docs"), site_dir=str(folder / "built"), strict=True
    )
    build(config)
    finish(folder / "built")
    return folder / "built"


class Asked(HTMLParser):
    """Collects what a page makes the browser load, and where its links lead."""

    def __init__(self):
        super().__init__()
        self.loads, self.links = [], []

    def handle_starttag(self, tag, attributes):
        found = dict(attributes)
        if tag in ("script", "img", "iframe", "source", "use") and (found.get("src") or found.get("href")):
            self.loads.append(found.get("src") or found.get("href"))
        elif tag == "link":
            self.loads.append(found["href"])
        elif tag == "a" and found.get("href"):
            self.links.append(found["href"])


def asked(page: Path) -> Asked:
    parser = Asked()
    parser.feed(page.read_text())
    return parser


def test_published_addresses_answer(site, catalogue):
    for kind in KINDS:
        for record in getattr(catalogue, kind):
            assert (site / kind / record / "index.html").is_file()
            assert (site / "draw" / f"{kind[:-1]}-{record}.svg").is_file()
    for address in ("", "check", "matrix", "methods", "sources", *KINDS):
        assert (site / address / "index.html").is_file()
    assert (site / "data/v1/catalogue.json").is_file() and (site / "data/v1/verdicts.json").is_file()
    assert (site / "sw.js").is_file() and (site / "search/search_index.json").is_file()


def test_nothing_is_loaded_from_another_host(site):
    for page in site.rglob("*.html"):
        for load in asked(page).loads:
            assert not re.match(r"(?:[a-z]+:)?//", load), f"{page.relative_to(site)} loads {load}"


def test_no_page_runs_the_themes_own_scripts(site):
    """The search is ours, and nothing else of theirs is needed."""
    for page in ("index.html", "ports/mic-dynamic-xlr/index.html"):
        assert "assets/js/page.js" in (site / page).read_text()
        assert not any("javascripts" in load for load in asked(site / page).loads)


def test_what_a_phone_keeps_is_written_with_the_site(site):
    assert (site / "offline-list.js").is_file() and (site / "offline/site.pack").stat().st_size > 1_000_000


def test_links_stay_within_the_site_and_arrive(site):
    for page in site.rglob("index.html"):
        for link in asked(page).links:
            target = re.split(r"[#?]", link)[0]
            if not target:
                continue
            assert not re.match(r"[a-z]+:|//", target), f"{page.relative_to(site)} links to {link}"
            place = (page.parent / target).resolve()
            assert place.is_file() or (place / "index.html").is_file(), (
                f"{page.relative_to(site)} links to {link}"
            )


def test_an_old_address_leads_to_the_new_one_in_one_hop(site):
    page = (site / "ports/old-mic/index.html").read_text()
    assert '<meta http-equiv="refresh" content="0; url=../../ports/mic-dynamic-xlr/">' in page
    assert "refresh" not in (site / "ports/mic-dynamic-xlr/index.html").read_text()
    assert (site / "draw/port-old-mic.svg").read_bytes() == (
        site / "draw/port-mic-dynamic-xlr.svg"
    ).read_bytes()


def test_ids_are_not_given_twice_on_a_page(site):
    """Several drawings stand on one page; an id twice would give one the other's title."""
    for page in site.rglob("index.html"):
        ids = re.findall(r'\sid="?([^"\s>]+)', page.read_text())
        assert len(ids) == len(set(ids)), page.relative_to(site)


def test_every_page_has_its_policy_and_finishing_twice_changes_nothing(site):
    pages = list(site.rglob("*.html"))
    assert len(pages) > 100 and all(
        path.read_text("utf-8").count('http-equiv="Content-Security-Policy"') == 1 for path in pages
    )
    before = {path: path.read_bytes() for path in site.rglob("*") if path.is_file()}
    finish(site)
    assert {path: path.read_bytes() for path in site.rglob("*") if path.is_file()} == before
