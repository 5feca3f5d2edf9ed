"""What is kept for offline use: the whole site, small enough for a phone, and under a new version for every
change of what is published."""

import base64
import gzip
import hashlib
import json
import re
from pathlib import Path

import pytest

from generator.site import offline

SOURCE = Path(__file__).parents[2] / "site_src"
PAGE = b"<h1>A page</h1>"


@pytest.fixture
def site(tmp_path):
    """A built site of a few files."""
    for path in (
        "index.html",
        "404.html",
        "check/index.html",
        "ports/a/index.html",
        "draw/port-a.svg",
        "assets/js/data.js",
        "assets/css/site.css",
        "assets/css/embed.css",
        "assets/javascripts/bundle.1.min.js",
        "assets/javascripts/bundle.1.min.js.map",
        "assets/javascripts/lunr/min/lunr.ja.min.js",
        "embed/ports/a/index.html",
        "data/v1/catalogue.json",
        "search/search_index.json",
        "sw.js",
        "manifest.webmanifest",
    ):
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_bytes(PAGE + path.encode())
    offline.write(tmp_path)
    return tmp_path


def listed(site: Path) -> dict:
    return json.loads(
        re.fullmatch(r"self\.OFFLINE = (.*);\n", (site / "offline-list.js").read_text(), re.DOTALL)[1]
    )


def sha256(path: Path) -> str:
    return base64.b64encode(hashlib.sha256(path.read_bytes()).digest()).decode()


def test_every_listed_file_is_there_and_nothing_a_phone_does_not_need(site):
    files, pack = listed(site)["files"], listed(site)["pack"]
    assert set(files) == {"assets/js/data.js", "assets/css/site.css", "manifest.webmanifest"}
    assert set(pack) == {offline.PACK, offline.PLACES}
    assert {path: sha256(site / path) for path in files | pack} == files | pack, (
        "each with the digest of what is there"
    )


def test_a_browser_that_cannot_unpack_is_given_the_pages_at_the_top_of_the_site(site):
    assert listed(site)["pages"] == {
        "": sha256(site / "index.html"),
        "check/": sha256(site / "check/index.html"),
    }


def test_a_list_that_was_cut_is_no_list(site):
    text = (site / "offline-list.js").read_text()
    assert offline.read(text) == listed(site)
    with pytest.raises(ValueError, match="offline-list.js is not whole"):
        offline.read(text[:-5])


def unpacked(site: Path) -> dict[str, bytes]:
    """What is in the pack of a site, read as the worker reads it."""
    index, pack = json.loads((site / offline.PLACES).read_bytes()), (site / offline.PACK).read_bytes()

    def member(start: int, length: int) -> bytes:
        return gzip.decompress(pack[start : start + length])

    common = member(*index["lines"]).split(b"\n")
    files = {
        address: file
        for start, length, addresses in index["members"]
        for address, file in zip(addresses, member(start, length).split(b"\n\x01\n"), strict=True)
    }
    return {
        address: b"\n".join(
            common[int(line[1:])] if line.startswith(b"\x01") else line for line in file.split(b"\n")
        )
        for address, file in files.items()
    }


def test_every_page_and_drawing_comes_out_of_the_pack_as_it_went_in(site):
    assert unpacked(site) == {
        "": PAGE + b"index.html",
        "check/": PAGE + b"check/index.html",
        "ports/a/": PAGE + b"ports/a/index.html",
        "draw/port-a.svg": PAGE + b"draw/port-a.svg",
    }


def test_what_many_pages_have_in_common_stands_once(site):
    head, pages = (
        b"<nav>The menu of every page</nav>",
        [site / f"ports/{name}/index.html" for name in "abcdefgh"],
    )
    for number, page in enumerate(pages):
        page.parent.mkdir(exist_ok=True)
        page.write_bytes(b"\n".join((head, b"", b"<p>%d</p>" % number, head, b"")))
    offline.write(site)
    assert {f"ports/{page.parent.name}/": page.read_bytes() for page in pages}.items() <= unpacked(
        site
    ).items()
    members = b"".join(
        gzip.decompress(member)
        for member in re.split(rb"(?=\x1f\x8b\x08)", (site / offline.PACK).read_bytes())
        if member
    )
    assert members.count(head) == 1


def test_files_share_a_member_until_it_is_full(monkeypatch):
    """A page alone that is too large is not cut; an empty one and one that ends in line breaks
    come out as they went in."""
    monkeypatch.setattr(offline, "MEMBER", 10)
    contents = {"a": b"1234", "b": b"", "c": b"12\n34\n", "d": b"1" * 25, "e": b"\n\n", "f": b"\n"}
    assert offline._together(contents) == [["a", "b", "c"], ["d"], ["e", "f"]]
    written = offline.packed(contents)
    assert [paths for _, _, paths in json.loads(written[offline.PLACES])["members"]] == [
        ["a", "b", "c"],
        ["d"],
        ["e", "f"],
    ]


def test_a_file_with_the_mark_of_the_pack_in_it_is_refused(site):
    (site / "check/index.html").write_bytes(b"<p>\x01</p>")
    with pytest.raises(ValueError, match="^check/index.html has a control character in it.$"):
        offline.write(site)


@pytest.mark.parametrize("path", ["ports/a/index.html", "draw/port-a.svg", "assets/js/data.js"])
def test_a_change_of_anything_kept_makes_a_new_version_and_nothing_else_does(site, path):
    before = listed(site)["version"]
    (site / "embed/ports/a/index.html").write_bytes(b"other")
    offline.write(site)
    assert listed(site)["version"] == before
    (site / path).write_bytes(b"other")
    offline.write(site)
    assert listed(site)["version"] != before


def test_the_worker_knows_the_pack_by_the_name_it_is_written_under():
    worker = (SOURCE / "offline/sw.js").read_text()
    assert f'"{offline.PACK}"' in worker and f'"{offline.PLACES}"' in worker


def test_the_worker_deletes_only_its_own_stores():
    worker = (SOURCE / "offline/sw.js").read_text()
    assert (
        worker.count("caches.keys()") == 1
        and "(await caches.keys()).filter((name) => name.startsWith(PREFIX)" in worker
    )
