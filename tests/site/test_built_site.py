"""What mkdocs makes of the docs tree: builds without a warning, keeps the published addresses, asks
nothing of other hosts."""

import logging
import re
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import once
import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config

from generator.site.finish import finish
from generator.site.page import KINDS
from generator.site.tree import write

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def site(catalogue, tmp_path_factory):
    """The folder of the whole site. Strict: a warning is a failure."""
    return once.site(catalogue, once.common(tmp_path_factory))


@pytest.fixture(scope="module")
def altered_site(tmp_path_factory, altered):
    """The folder of a site with hostile names and retired ids: the pages these are on."""
    folder = tmp_path_factory.mktemp("site")
    pages = {path for path, content in altered.items() if path.endswith(".md") and hostile(content)}
    pages |= {"index.md", "check.md", *(f"ports/{name}.md" for name in ("old-mic", "split"))}
    assert len(pages) > 10
    files = {path: content for path, content in altered.items() if not path.endswith(".md") or path in pages}
    write(files, folder / "docs")
    logging.getLogger("mkdocs").setLevel(logging.ERROR)  # the menu names pages that are left out here
    build(
        load_config(str(ROOT / "mkdocs.yml"), docs_dir=str(folder / "docs"), site_dir=str(folder / "built"))
    )
    finish(folder / "built")
    return folder / "built"


def hostile(content: bytes) -> bool:
    return b"alert(1)" in content


@pytest.fixture(params=["site", "altered_site"])
def either(request):
    return request.getfixturevalue(request.param)


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


@cache
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


def test_nothing_is_loaded_from_another_host(either):
    for page in either.rglob("*.html"):
        for load in asked(page).loads:
            assert not re.match(r"(?:[a-z]+:)?//", load), f"{page.relative_to(either)} loads {load}"


def test_no_page_runs_the_themes_own_scripts(either):
    """The search is ours, and nothing else of theirs is needed."""
    for page in ("index.html", "ports/mic-dynamic-xlr/index.html"):
        assert "assets/js/page.js" in (either / page).read_text()
        assert not any("javascripts" in load for load in asked(either / page).loads)


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


def test_an_old_address_leads_to_the_new_one_in_one_hop(altered_site):
    page = (altered_site / "ports/old-mic/index.html").read_text()
    assert '<meta http-equiv="refresh" content="0; url=../../ports/mic-dynamic-xlr/">' in page
    assert "refresh" not in (altered_site / "ports/mic-dynamic-xlr/index.html").read_text()
    assert (altered_site / "draw/port-old-mic.svg").read_bytes() == (
        altered_site / "draw/port-mic-dynamic-xlr.svg"
    ).read_bytes()


def test_ids_are_not_given_twice_on_a_page(either):
    """Several drawings stand on one page; an id twice would give one the other's title."""
    for page in either.rglob("index.html"):
        ids = re.findall(r'\sid="?([^"\s>]+)', page.read_text())
        assert len(ids) == len(set(ids)), page.relative_to(either)


def test_every_page_has_its_policy(either):
    pages = list(either.rglob("*.html"))
    assert len(pages) > 10 and all(
        path.read_text("utf-8").count('http-equiv="Content-Security-Policy"') == 1 for path in pages
    )


def test_finishing_twice_changes_nothing(altered_site):
    before = {path: path.read_bytes() for path in altered_site.rglob("*") if path.is_file()}
    finish(altered_site)
    assert {path: path.read_bytes() for path in altered_site.rglob("*") if path.is_file()} == before


def test_a_hostile_name_stands_as_text_on_every_page_it_is_on(altered_site):
    pages = [path for path in altered_site.rglob("index.html") if hostile(path.read_bytes())]
    assert len(pages) > 10
    for path in pages:
        read = re.sub(
            r"<script[^>]* type=\"?application/json.*?</script>", "", path.read_text("utf-8"), flags=re.S
        )
        assert not re.search(r"<script[^>]*>\s*alert", read), path.relative_to(altered_site)
