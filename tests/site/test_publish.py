"""Publishing: whole or not at all, the list last, nobody else's files touched; and what a served address
is told to put right."""

import gzip
import json

import pytest

from generator.site import offline, publish, served
from generator.site.publish import NotPublished

MADE = (
    "index.html",
    "check/index.html",
    "ports/a/index.html",
    "draw/port-a.svg",
    "assets/js/data.js",
    "assets/js/engine.js",
    "assets/css/site.css",
    "assets/favicon.svg",
    "search/search_index.json",
    "sw.js",
    "manifest.webmanifest",
)


def made(folder, name):
    """A built site of a few files, all of them telling their version."""
    for path in MADE:
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(f'<meta name="edition" content="{name * 8}">{path}')
    (folder / "withdrawn.json").write_text('{"withdrawn": {}}')
    offline.write(folder)
    return folder


@pytest.fixture
def sites(tmp_path):
    return {name: made(tmp_path / f"site-{name}", name) for name in "ab"}


def content(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and not path.name.startswith(".")
    }


def test_the_folder_holds_the_site_and_a_second_time_nothing_is_written(sites, tmp_path):
    first = publish.publish(sites["a"], tmp_path / "www")
    assert content(tmp_path / "www") == content(sites["a"]) and first.written == len(content(sites["a"]))
    again = publish.publish(sites["a"], tmp_path / "www")
    assert (again.written, again.unchanged, again.removed) == (
        0,
        first.written,
        0,
    ) and again.version == first.version


def test_what_is_gone_is_removed_and_what_others_put_there_stays(sites, tmp_path):
    www = tmp_path / "www"
    publish.publish(sites["a"], www)
    (www / "robots.txt").write_text("theirs")
    (sites["b"] / "draw/port-a.svg").unlink()
    offline.write(sites["b"])
    assert publish.publish(sites["b"], www).removed == 1
    assert content(www) == content(sites["b"]) | {"robots.txt": b"theirs"} and not (www / "draw").exists()


@pytest.mark.parametrize("after", range(0, 13, 3))
def test_a_run_that_is_cut_off_leaves_the_old_list_and_the_next_one_finishes_it(
    sites, tmp_path, monkeypatch, after
):
    www, done = tmp_path / "www", []
    publish.publish(sites["a"], www)
    old, put = (www / offline.LIST).read_bytes(), publish._put

    def cut(new, target):
        if len(done) == after:
            raise OSError(28, "No space left on device", str(target))
        done.append(target)
        put(new, target)

    monkeypatch.setattr(publish, "_put", cut)
    with pytest.raises(
        NotPublished,
        match="No space left on device.*phones keep what they have. Put that right and run this again.",
    ):
        publish.publish(sites["b"], www)
    assert (www / offline.LIST).read_bytes() == old, "the switch comes last"
    monkeypatch.undo()
    publish.publish(sites["b"], www)
    assert content(www) == content(sites["b"])


def test_scripts_come_before_pages_and_the_list_last(sites, tmp_path, monkeypatch):
    order, put = [], publish._put
    monkeypatch.setattr(
        publish,
        "_put",
        lambda new, old: (order.append(old.relative_to(tmp_path / "www").as_posix()), put(new, old)),
    )
    publish.publish(sites["a"], tmp_path / "www")
    pages = [place for place, path in enumerate(order) if path.endswith(".html")]
    assert (
        order[-2:] == ["sw.js", "offline-list.js"]
        and min(pages) > order.index("assets/js/data.js")
        and max(pages) == len(order) - 3
    )


@pytest.mark.parametrize("path", ["assets/js/data.js", offline.PACK, offline.LIST])
def test_a_site_that_is_not_whole_is_not_published(sites, tmp_path, path):
    file = sites["a"] / path
    file.write_bytes(file.read_bytes()[:-3])
    with pytest.raises(
        NotPublished, match="run mkdocs build and finish( again| first)?. Nothing was changed."
    ):
        publish.publish(sites["a"], tmp_path / "www")
    assert not (tmp_path / "www").exists()


def test_no_site_and_a_folder_inside_it_are_refused(sites, tmp_path, ask):
    assert ask("publish", tmp_path / "www", "--site", tmp_path / "nothing") == (
        2,
        "",
        f"no whole site in {tmp_path / 'nothing'}; run mkdocs build and finish first. Nothing was changed.\n",
    )
    status, _, said = ask("publish", sites["a"] / "www", "--site", sites["a"])
    assert status == 2 and "lie in each other; name another folder" in said


def host(folder, changed=None, **more):
    """What a host that does all as it should answers; `changed`: path -> Answer, `more`:
    headers of every answer."""
    kinds = {
        ".js": "text/javascript",
        ".css": "text/css",
        ".svg": "image/svg+xml",
        ".json": "application/json",
        ".html": "text/html; charset=utf-8",
    }

    def get(url):
        path = url.removeprefix("https://example.org/")
        file = folder / (f"{path}index.html" if not path or path.endswith("/") else path)
        headers = {
            "content-type": kinds.get(file.suffix, "application/octet-stream"),
            "content-encoding": "gzip",
            "cache-control": "no-cache",
            **more,
        }
        answer = (
            served.Answer(200, headers, file.read_bytes()) if file.is_file() else served.Answer(404, {}, b"")
        )
        return (changed or {}).get(path, answer)

    return get


def look(*how, **more):
    return served.look("https://example.org/", host(*how, **more))


def test_a_whole_site_is_told_with_its_version(sites):
    report = look(sites["a"])
    assert (report.faults, report.advice) == ([], []) and report.edition == "a" * 8
    assert report.version == offline.read((sites["a"] / offline.LIST).read_text())["version"]
    assert served.told(report).endswith("Whole: every phone that visits gets this version.")


@pytest.mark.parametrize("path", ["assets/js/data.js", "offline/site.pack", "check/"])
def test_a_file_of_another_version_is_named(sites, path):
    file = sites["b"] / (f"{path}index.html" if path.endswith("/") else path)
    report = look(sites["a"], {path: host(sites["b"])(f"https://example.org/{path}")})
    assert (
        file.is_file()
        and len(report.faults) == 1
        and report.faults[0].startswith(f"{path} is not the file of version {report.version}:")
    )
    assert "Not whole: phones keep what they have." in served.told(report)


def test_what_is_missing_cut_or_refused_is_a_fault(sites):
    assert look(sites["a"], {"assets/js/data.js": served.Answer(404, {}, b"")}).faults == [
        "assets/js/data.js is answered with 404: publish again."
    ]
    assert look(
        sites["a"], {offline.LIST: served.Answer(200, {"cache-control": "no-cache"}, b"self.OFFLINE = {")}
    ).faults == ["offline-list.js is not whole: publish again."]
    assert look(sites["a"], {"withdrawn.json": served.Answer(404, {}, b"")}).faults == [
        "withdrawn.json cannot be read (status 404): phones would not hear of a withdrawn version."
    ]


def test_a_withdrawn_edition_is_a_fault(sites):
    body = json.dumps({"withdrawn": {"a" * 8: "A rating was read wrongly."}}).encode()
    answer = served.Answer(200, {"content-type": "application/json", "cache-control": "no-cache"}, body)
    assert look(sites["a"], {"withdrawn.json": answer}).faults == [
        "this edition is withdrawn: A rating was read wrongly."
    ]


def test_types_compression_and_caching_are_looked_at(sites):
    assert (
        "assets/js/data.js is sent as 'text/plain'; a browser wants text/javascript."
        in look(sites["a"], **{"content-type": "text/plain"}).faults
    )
    assert (
        look(sites["a"], **{"content-encoding": ""}).advice[0]
        == "assets/js/data.js is sent unpressed (0 kB); let the host compress text."
    )
    held = look(sites["a"], **{"cache-control": "public, max-age=86400"}).faults
    assert (
        held[0] == "sw.js may be used from a copy for too long ('public, max-age=86400'); send 'no-cache'."
        and len(held) == 4
    )
    assert len(look(sites["a"], **{"cache-control": ""}).advice) == 4
    assert look(sites["a"], **{"cache-control": "max-age=300"}).faults == []


def test_an_address_without_https_keeps_nothing(sites):
    report = served.look("http://example.org/", lambda url: host(sites["a"])(url.replace("http:", "https:")))
    assert report.faults == ["without https no browser keeps the site for use without a network."]
    assert (
        served.look(
            "http://127.0.0.1:8000/",
            lambda url: host(sites["a"])(url.replace("http://127.0.0.1:8000", "https://example.org")),
        ).faults
        == []
    )


def test_what_is_sent_compressed_is_read(sites):
    assert served._answer(200, {"Content-Encoding": "gzip"}, gzip.compress(b"words")).body == b"words"


def test_an_address_where_nothing_answers_is_told_as_such(ask):
    status, out, said = ask("served", "http://127.0.0.1:9/")
    assert (status, out) == (2, "") and said.startswith("http://127.0.0.1:9/ does not answer: ")
