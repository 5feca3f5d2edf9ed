"""No maker's, product's or platform's name stands in what people read, search or type: a lead is told by its
plugs, not by who sold it.

The names are kept as digests (the first 16 hexadecimal digits of SHA-256 of the word in small
letters, without hyphens and spaces), so that they stand nowhere. A source keeps the title it has, and
the place where it was read.
"""

import re
from hashlib import sha256
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
NOT_KEPT = frozenset(Path(__file__).with_name("names_not_kept.txt").read_text().split())
FILES = sorted(
    path
    for folder in ("pinouts", "site_src", "generator", "tests")
    for path in (ROOT / folder).rglob("*")
    if path.suffix in {".yaml", ".j2", ".md", ".py", ".js", ".html"}
    and "vendor" not in path.name
    and not path.name.startswith("a-")
)
OF_A_SOURCE = re.compile(r"^  (title|where): ")
# one platform looks for its icon under its own name and no other
OF_A_BROWSER = re.compile(r"""\brel=["']?\w+-touch-icon""")


def digest(word: str) -> str:
    return sha256(word.encode()).hexdigest()[:16]


def names(text: str) -> list[str]:
    """The words of a text, and pairs of words read as one, that are not kept."""
    words = re.findall(r"[^\W_]+", text.lower())
    return [word for word in (*words, *map("".join, zip(words, words[1:]))) if digest(word) in NOT_KEPT]


@pytest.mark.parametrize("folder", ["pinouts", "site_src", "generator", "tests", "."])
def test_no_name_of_a_maker_or_product(folder):
    files = (
        [path for path in FILES if path.is_relative_to(ROOT / folder)]
        if folder != "."
        else [*ROOT.glob("*.md"), ROOT / "mkdocs.yml", ROOT / "pyproject.toml"]
    )
    assert files
    found = {}
    for path in files:
        lines = path.read_text("utf-8").splitlines()
        if path.name == "sources.yaml":
            lines = [line for line in lines if not OF_A_SOURCE.match(line)]
        lines = [OF_A_BROWSER.sub("", line) for line in lines]
        found |= {
            f"{path.relative_to(ROOT)}:{number}": name
            for number, line in enumerate(lines, 1)
            if (name := names(line))
        }
    assert not found


def test_a_name_would_be_found(monkeypatch):
    monkeypatch.setitem(globals(), "NOT_KEPT", frozenset({digest("soundmaker")}))
    assert names("the Soundmaker lead") == ["soundmaker"]
    assert names("a sound-maker plug") == ["soundmaker"]
    assert names("a maker of sound") == []
