"""Writing the docs tree: a second run touches nothing, what no longer belongs goes, and
nothing else ever does."""

import pytest

from generator.site.tree import Changes, write

FILES = {"index.md": b"one", "ports/a.md": b"two"}


def test_writes_everything_once(tmp_path):
    assert write(FILES, tmp_path) == Changes(written=2, unchanged=0, removed=0)
    before = (tmp_path / "index.md").stat().st_mtime_ns
    assert write(FILES, tmp_path) == Changes(written=0, unchanged=2, removed=0)
    assert (tmp_path / "index.md").stat().st_mtime_ns == before


def test_writes_only_what_changed(tmp_path):
    write(FILES, tmp_path)
    assert write({**FILES, "index.md": b"new"}, tmp_path) == Changes(written=1, unchanged=1, removed=0)
    assert (tmp_path / "index.md").read_bytes() == b"new"


def test_removes_its_own_stale_files_and_empty_folders(tmp_path):
    write(FILES, tmp_path)
    assert write({"index.md": b"one"}, tmp_path) == Changes(written=0, unchanged=1, removed=1)
    assert not (tmp_path / "ports").exists()


def test_never_removes_what_it_did_not_write(tmp_path):
    (tmp_path / "notes.txt").write_text("somebody's work")
    write(FILES, tmp_path)
    write({}, tmp_path)
    assert (tmp_path / "notes.txt").read_text() == "somebody's work"
    assert not (tmp_path / "index.md").exists()


@pytest.mark.parametrize("path", ["../escape.md", "/etc/escape.md", "a/../../escape.md", ""])
def test_refuses_to_leave_the_tree(tmp_path, path):
    with pytest.raises(ValueError) as fault:
        write({path: b""}, tmp_path / "out")
    assert str(fault.value) == f"{path!r} does not stay inside the docs tree"
    assert list(tmp_path.rglob("escape.md")) == []


def test_refuses_a_tampered_list_of_earlier_files(tmp_path):
    out, victim = tmp_path / "out", tmp_path / "victim.txt"
    out.mkdir()
    victim.write_text("somebody's work")
    (out / ".written").write_text("../victim.txt\n")
    with pytest.raises(ValueError, match="does not stay inside"):
        write(FILES, out)
    assert victim.exists()
