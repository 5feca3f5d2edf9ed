"""Scalars stay text, and everything knows where it stands."""

import pytest

from generator.catalogue import loader
from generator.catalogue.nodes import Map, Place, plain
from generator.catalogue.problems import Problems


@pytest.fixture
def read(tmp_path):
    def read(text):
        problems = Problems()
        path = tmp_path / "file.yaml"
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return loader.read(path, "file.yaml", problems), problems.sorted()

    return read


def test_nothing_changes_its_meaning(read):
    """A YAML 1.1 reader makes booleans, octal 8, sexagesimal 90 and the float 1.1 of these."""
    node, problems = read("a: no\non: on\nb: 010\nc: 1:30\nd: 1.10\ne: ~\nf: 2026-11-25\ng:\n")
    assert not problems
    assert plain(node) == {
        "a": "no",
        "on": "on",
        "b": "010",
        "c": "1:30",
        "d": "1.10",
        "e": "~",
        "f": "2026-11-25",
        "g": "",
    }


def test_places_count_from_one(read):
    node, _ = read("# remark\nkey: {inner: [one,\n    two]}\n")
    assert node.keys["key"] == Place("file.yaml", 2, 1)
    assert node["key"].keys["inner"] == Place("file.yaml", 2, 7)
    assert [item.place for item in node["key"]["inner"]] == [
        Place("file.yaml", 2, 15),
        Place("file.yaml", 3, 5),
    ]


def test_columns_count_characters_not_bytes(read):
    node, _ = read("{é: x, b: y}\n")
    assert node.keys["b"].column == 8


@pytest.mark.parametrize("text", ["", "# only a remark\n", "\n\n", "---\n"])
def test_empty(read, text):
    node, problems = read(text)
    assert node is None
    assert [p.rule for p in problems] == ["empty-file"]


@pytest.mark.parametrize(
    ("text", "line", "column", "message"),
    [
        (
            "a: [1, 2\n",
            2,
            1,
            "this is not YAML: did not find expected ',' or ']', while parsing a flow sequence.",
        ),
        (
            "a: 1\n\tb: 2\n",
            2,
            1,
            (
                "this is not YAML: found a tab character that violates indentation, while scanning a plain "
                "scalar."
            ),
        ),
        (
            "a: 1\n---\nb: 2\n",
            2,
            1,
            "this is not YAML: but found another document, expected a single document in the stream.",
        ),
        ("? [a]\n: b\n", 1, 3, "a key must be text."),
        (b"a: \xff\n", 1, 1, "the file is not UTF-8 text: invalid start byte at byte 3."),
        ("a: \x07\n", 1, 1, None),
    ],
)
def test_syntax(read, text, line, column, message):
    _, problems = read(text)
    assert [(p.rule, p.line, p.column) for p in problems] == [("syntax", line, column)]
    assert message in (None, problems[0].message)


def test_an_alias_that_holds_itself_ends(read):
    node, problems = read("a: &x [1, *x]\n")
    assert [p.rule for p in problems] == ["alias"]
    assert isinstance(node, Map)


def test_a_byte_order_mark_is_not_a_key(read):
    node, problems = read(b"\xef\xbb\xbfname: x\n")
    assert plain(node) == {"name": "x"}
    assert not problems
