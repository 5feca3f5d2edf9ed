"""Scripts and styles made small: word for word the program that was written."""

import re

import pytest
from front import SCRIPTS, run

from generator.site.small import small

SCRIPT = b"""\"use strict\";
/*! somebody's licence */
// why it is so
(function (Ringfence) {
  const quantity = 0.1 + 0.2, one = 3, list = [1, 2 ] // the line ends a statement
  let told = one - -one
  told = told / one / 2 ; /* a blank here
     and there */
  Ringfence.told = (volts) => [ quantity, told, a ( list ), "a // b  { }", `${ volts } V /* no  comment */ ${ `in ${ volts  }` }`, / \\/\\*  x /.source, volts ? .5 : + + volts ];
  function a(list) {
    return list.map((each) => each
      + 1)
  }
})(Ringfence);
"""


def test_what_is_made_small_says_the_same(tmp_path):
    found = small(
        {
            "x.js": SCRIPT,
            "x.css": b"/* why */\np > a { color: #ff0000; margin: calc(1px + 2px) }\n",
            "logo.svg": b"<svg> </svg>",
        }
    )
    assert (
        found["logo.svg"] == b"<svg> </svg>"
        and found["x.css"] == b"p>a{color:#ff0000;margin:calc(1px + 2px)}\n"
    )
    text = found["x.js"]
    assert (
        len(text) < len(SCRIPT)
        and b"somebody's licence" in text
        and b"why it is so" not in text
        and b"and there" not in text
    )
    (tmp_path / "data.json").write_text("{}")
    told = []
    for number, content in enumerate((SCRIPT, text)):
        (tmp_path / f"{number}.js").write_bytes(content)
        told.append(run("Ringfence.told(3)", [tmp_path / f"{number}.js"], tmp_path / "data.json"))
    assert (
        told[0]
        == told[1]
        == [0.1 + 0.2, 1, [2, 3], "a // b  { }", "3 V /* no  comment */ in 3", " \\/\\*  x ", 0.5]
    )


def test_a_script_that_does_not_parse_is_named():
    with pytest.raises(ValueError, match=re.escape("assets/js/x.js is not JavaScript.")):
        small({"assets/js/x.js": b"const ;"})


@pytest.mark.parametrize(
    "path", sorted(SCRIPTS.rglob("*.js")), ids=lambda path: path.relative_to(SCRIPTS).as_posix()
)
def test_every_script_of_ours_stays_the_same_program(path):
    """Read by a scanner of its own: the same signs, words and texts in the same order, and a new line
    wherever two of them could run together."""
    before, after = (
        list(scanned(path.read_text())),
        list(scanned(small({"x.js": path.read_bytes()})["x.js"].decode())),
    )
    assert [token for token, _ in before] == [token for token, _ in after]
    assert [token for token, ended in before if ended] == [token for token, ended in after if ended], (
        "lines end where they ended"
    )


TOKEN = re.compile(
    r"""(?P<blank>\s+|//[^\n]*|/\*.*?\*/)|(?P<word>[\w$.]+)|(?P<text>"(?:\\.|[^"\\])*"|'(?:\\.|[^'\\])*')|(?P<sign>\+\+|--|.)""",
    re.DOTALL,
)
PATTERN = re.compile(r"/(?:\\.|\[(?:\\.|[^\]\\])*\]|[^/\\\[\n])+/\w*")


def scanned(text):
    """(token, does a line end after it) of a script; a template is one token up to the next hole in it."""
    found, at, holes = [], 0, []  # holes: how deep the braces were at each hole of a template
    depth = 0
    while at < len(text):
        last = found[-1][0] if found else ""
        if text[at] == "`" or (text[at] == "}" and holes and holes[-1] == depth):
            end = re.compile(r"(?:\\.|(?!\$\{)[^`\\])*", re.DOTALL).match(text, at + 1).end()
            if text[at] == "}":
                holes.pop()
            if text[end] == "$":
                holes.append(depth)
                end += 1
            found.append([text[at : end + 1], False])
            at = end + 1
            continue
        if (
            text[at] == "/"
            and text[at + 1] not in "/*"
            and not (
                last and (last[-1].isalnum() or last[-1] in "_$)]}`") and last not in {"return", "typeof"}
            )
        ):
            one = PATTERN.match(text, at)
            found.append([one[0], False])
        else:
            one = TOKEN.match(text, at)
            if one["blank"]:
                if found and "\n" in one[0]:
                    found[-1][1] = True
            else:
                found.append([one[0], False])
                depth += {"{": 1, "}": -1}.get(one[0], 0)
        at = one.end()
    return found


@pytest.mark.parametrize(
    "one, other",
    [
        ("a - -b", "a--b"),
        ("a / /b/", "a//b/"),
        ("return\na", "return a"),
        ("`a  b`", "`a b`"),
        ("`a${ b }  c`", "`a${b} c`"),
        ("/a  b/", "/a b/"),
    ],
)
def test_the_scanner_sees_what_would_be_another_program(one, other):
    assert scanned(one) != scanned(other)
