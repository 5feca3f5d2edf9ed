"""What a reader takes along from a record page: frames, words to cite, QR codes, a way to correct. No
address is ever made up."""

import re
from xml.etree import ElementTree

import once
import pytest
import segno
import trees
import yaml
from front import SCRIPTS

from generator.site import address as addresses
from generator.site import cards, qr
from generator.site.address import Address
from generator.site.drawings import Drawings
from generator.site.page import KINDS

ROOT = SCRIPTS.parents[2]
HERE = trees.HERE


@pytest.fixture(scope="module")
def placed(catalogue, tmp_path_factory):
    """The docs tree of a site that knows where it stands."""
    return trees.placed(catalogue, once.common(tmp_path_factory))


def test_nothing_is_known_of_an_address_until_somebody_says_it(monkeypatch):
    monkeypatch.delenv("RINGFENCE_URL", raising=False)
    assert addresses.read(ROOT / "mkdocs.yml") == Address("", "")
    monkeypatch.setenv("RINGFENCE_URL", "https://example.org/ringfence")
    assert addresses.read(ROOT / "mkdocs.yml") == Address("https://example.org/ringfence/", "")


@pytest.mark.parametrize(
    "config, facts",
    [
        ("repo_url: https://example.org/files\n", ""),
        ("edit_uri: edit/main/\n", ""),
        ("repo_url: https://example.org/files\nedit_uri: edit/main\n", HERE.facts),
    ],
)
def test_an_editor_is_linked_only_where_repository_and_way_are_both_given(tmp_path, config, facts):
    (tmp_path / "mkdocs.yml").write_text(config)
    assert addresses.read(tmp_path / "mkdocs.yml").facts == facts


@pytest.mark.parametrize(
    "text",
    [
        "example.org",
        "ftp://example.org/",
        "https://example.org/?a=b",
        'https://example.org/"onload="',
        "javascript:alert(1)",
    ],
)
def test_what_is_no_address_is_a_fault(text):
    with pytest.raises(ValueError) as fault:
        Address(text)
    assert (
        str(fault.value)
        == f"{text!r} is not an address a page can stand at; write it like https://example.org/ringfence/"
    )


def test_without_an_address_there_is_no_code_and_the_page_says_what_is_missing(tree, catalogue):
    assert not [path for path in tree if path.startswith("qr/")]
    for kind in KINDS:
        for record in getattr(catalogue, kind):
            page = tree[f"{kind}/{record}.md"].decode()
            assert "/qr/" not in page and "https://" not in page
            assert f'Ringfence, <span class="rf-site"></span>{kind}/{record}/.' in page
            assert f"Put the address of this site before {kind}/." in page
    assert 'data-site=""' in tree["cards.md"].decode() and 'data-site=""' in tree["check.md"].decode()


def test_with_an_address_every_record_is_cited_by_it_and_has_its_code(placed, catalogue):
    for kind in KINDS:
        for record in getattr(catalogue, kind):
            page = placed[f"{kind}/{record}.md"].decode()
            assert (
                f'<span class="rf-site">{HERE.site}</span>{kind}/{record}/.' in page
                and "Put the address" not in page
            )
            assert f'src="../../qr/{kind}/{record}.svg"' in page
            assert placed[f"qr/{kind}/{record}.svg"] == qr.svg(f"{HERE.site}{kind}/{record}/")
            assert f'href="{HERE.facts}pinouts/{kind}/{record}.yaml">Edit the file' in page
    assert f'data-site="{HERE.site}"' in placed["cards.md"].decode()


def test_a_citation_tells_the_state_of_the_data(tree):
    stamp = re.search(r'^stamp: "(.*)"$', tree["leads/xlr-f-to-xlr-m-3m.md"].decode(), re.MULTILINE)[1]
    assert re.fullmatch(r"Data of \d{4}-\d\d-\d\d \([0-9a-f]{8}\) · program .+", stamp)
    assert f"</span>leads/xlr-f-to-xlr-m-3m/. {stamp}.</code>" in tree["leads/xlr-f-to-xlr-m-3m.md"].decode()


def test_a_code_is_black_on_white_with_its_quiet_zone_and_no_style():
    """Four modules of quiet zone: ISO/IEC 18004 (from memory). That it can be read is
    tested in tests/browser."""
    text = f"{HERE.site}leads/xlr-f-to-xlr-m-3m/"
    picture = ElementTree.fromstring(qr.svg(text))
    side = segno.make(text, error="m", micro=False).symbol_size(border=4)[0]
    light, dark = picture
    assert picture.attrib["viewBox"] == f"0 0 {side} {side}" and light.attrib == {
        "fill": "#fff",
        "d": f"M0 0h{side}v{side}h-{side}z",
    }
    assert dark.attrib["stroke"] == "#000" and dark.attrib["d"].startswith("M4 4.5h7")
    assert b"style" not in qr.svg(text)
    assert segno.make(text, error=qr.LEVEL, micro=False).error in "MQH"


def test_every_record_page_asks_the_three_questions(tree, catalogue):
    for kind in KINDS:
        for record in getattr(catalogue, kind):
            page = tree[f"{kind}/{record}.md"].decode()
            asked = re.search(
                r'<dt id="correct">Correct this fact</dt>.*?<pre[^>]*>(.*?)</pre>', page, re.DOTALL
            )[1]
            assert f"Page: {kind}/{record}/, made from pinouts/{kind}/{record}.yaml\nData of " in asked
            assert asked.endswith(
                "1. What does the page say?\n"
                "2. What is true instead?\n"
                "3. How do you know: a standard, the maker&#39;s page, or measured?"
            ) or asked.endswith(
                "1. What does the page say?\n"
                "2. What is true instead?\n"
                "3. How do you know: a standard, the maker's page, or measured?"
            )
            assert 'href="#correct"' in page and "Edit the file" not in page


def test_every_drawing_can_be_had_and_framed(tree, catalogue):
    pictures = Drawings(catalogue)
    for kind in KINDS:
        for record in getattr(catalogue, kind):
            page, frame = (
                tree[f"{kind}/{record}.md"].decode(),
                tree[f"embed/{kind}/{record}/index.html"].decode(),
            )
            assert f'</span>embed/{kind}/{record}/<span class="rf-take__which"></span>&quot;' in page
            for view in pictures.views(kind, record):
                assert f'href="../../draw/{view.name}.svg" download' in page
                assert f'id="{view.name}"' in frame and f'src="../../../draw/{view.name}.svg"' in frame
            assert f'href="../../../{kind}/{record}/" target="_blank"' in frame
            assert "<script" not in frame and "default-src 'none'; img-src 'self'; style-src 'self'" in frame


def test_frames_are_small(tree):
    """A forum page may hold many; and all of them together must not weigh on the site."""
    sizes = [
        len(content) for path, content in tree.items() if path.startswith("embed/") and "check" not in path
    ]
    assert max(sizes) < 5_000 and sum(sizes) / len(sizes) < 2_000


def test_a_hostile_name_stays_text_in_a_frame_and_in_its_source(altered):
    assert "<script" not in altered["embed/leads/xlr-f-to-xlr-m-3m/index.html"].decode()
    assert "title=&quot;&amp;#34;&amp;gt;&amp;lt;script" in altered["leads/xlr-f-to-xlr-m-3m.md"].decode()


def test_an_old_frame_shows_the_successor(altered):
    assert altered["embed/ports/old-mic/index.html"] == altered["embed/ports/mic-dynamic-xlr/index.html"]
    assert "embed/ports/split/index.html" not in altered


def test_the_framed_check_has_the_checks_own_scripts(tree):
    page = tree["embed/check/index.html"].decode()
    scripts = re.findall(r'<script src="\.\./\.\./([^"]+)"', page)
    assert scripts == [
        f"assets/js/{name}.js" for name in ("data", "circuits", "engine", "ui", "check", "ways", "embed")
    ]
    assert set(scripts) <= set(tree) and "default-src 'none'; script-src 'self'" in page
    styles = re.findall(r'stylesheet" href="\.\./\.\./([^"]+)"', page)
    assert styles and set(styles) <= set(tree)


def test_the_page_of_cards_is_in_the_navigation_and_every_connector_and_lead_leads_to_it(tree, catalogue):
    config = yaml.load((ROOT / "mkdocs.yml").read_text(), yaml.BaseLoader)
    assert {"Cards": "cards.md"} in config["nav"] and b".rf-card{" in tree["assets/css/cards.css"]
    assert "The cards need scripts, and they are not running." in tree["cards.md"].decode()
    for kind in ("connectors", "leads"):
        assert all(
            f'href="../../cards/#{kind}={record}"' in tree[f"{kind}/{record}.md"].decode()
            for record in getattr(catalogue, kind)
        )


def test_a_connectors_card_shows_both_halves(catalogue):
    assert cards.faces(Drawings(catalogue), "xlr-3") == ["connector-xlr-3", "connector-xlr-3-female-face"]
    assert cards.faces(Drawings(catalogue), "phone-35-trs") == [
        "connector-phone-35-trs",
        "connector-phone-35-trs-jack-plug",
    ]
