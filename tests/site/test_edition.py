"""The edition: what changes it, where it is told, and which editions are withdrawn."""

import json
import re

import pytest

from generator.site import bundles, edition

FILES = {"assets/js/data.js": b"data();\n", "assets/css/site.css": b"p {}\n", "draw/a.svg": b"<svg/>"}


@pytest.fixture
def source(tmp_path):
    (tmp_path / "templates").mkdir()
    (tmp_path / "templates/check.md.j2").write_text("# Check")
    (tmp_path / "withdrawn.yaml").write_text("# none\n")
    return tmp_path


def test_any_change_of_a_file_or_a_template_is_another_edition(source):
    first = edition.edition(FILES, source)
    assert re.fullmatch(r"[0-9a-f]{8}", first) and edition.edition(dict(FILES), source) == first
    assert edition.edition(FILES | {"draw/a.svg": b"<svg />"}, source) != first
    assert edition.edition(FILES | {"draw/b.svg": b""}, source) != first
    (source / "templates/check.md.j2").write_text("# Checked")
    assert edition.edition(FILES, source) != first


def test_every_script_tells_its_edition_last_and_nothing_else_does():
    told = edition.marked(FILES, "0a1b2c3d")
    assert (
        told["assets/js/data.js"]
        == b'data();\nRingfence.editions = { ...Ringfence.editions, "data": "0a1b2c3d" };\n'
    )
    assert {path: told[path] for path in FILES if path != "assets/js/data.js"} == {
        path: FILES[path] for path in FILES if path != "assets/js/data.js"
    }


def test_the_real_tree_tells_one_edition_in_scripts_pages_and_frames(tree):
    names = {
        found
        for path, content in tree.items()
        if path.startswith(bundles.SCRIPTS)
        for found in re.findall(rb'editions, "\w[\w-]*": "(\w+)"', content)
    }
    assert len(names) == 1
    scripts = [path for path in tree if path.startswith(bundles.SCRIPTS) and path.endswith(".js")]
    assert [path for path in scripts if b"Ringfence.editions = {" not in tree[path]] == []
    name = names.pop().decode()
    assert (
        f'edition: "{name}"' in tree["check.md"].decode()
        and f"edition {name}" in tree["leads/xlr-f-to-xlr-m-3m.md"].decode()
    )
    assert f'<meta name="edition" content="{name}"' in tree["embed/check/index.html"].decode()
    assert json.loads(tree["withdrawn.json"]) == {"withdrawn": {}}


def test_withdrawn_editions_are_published_with_their_reason(source):
    (source / "withdrawn.yaml").write_text("0a1b2c3d: A rating was read wrongly.\n")
    assert json.loads(edition.files(source, "ffffffff")["withdrawn.json"]) == {
        "withdrawn": {"0a1b2c3d": "A rating was read wrongly."}
    }


def test_a_withdrawn_edition_is_not_built_again(source):
    (source / "withdrawn.yaml").write_text("0a1b2c3d: A rating was read wrongly.\n")
    with pytest.raises(
        ValueError,
        match=r"edition 0a1b2c3d is withdrawn \(A rating was read wrongly\.\); change what was wrong",
    ):
        edition.files(source, "0a1b2c3d")


@pytest.mark.parametrize(
    "line",
    ["0a1b: too short", "0A1B2C3D: capitals", "0a1b2c3d: ''", "0a1b2c3d: [a, b]", "0a1b2c3d: " + "x" * 301],
)
def test_what_names_no_edition_or_no_reason_is_refused(source, line):
    (source / "withdrawn.yaml").write_text(f"{line}\n")
    with pytest.raises(ValueError, match="needs 8 digits 0-9 a-f, and one sentence"):
        edition.withdrawn(source)
