"""Whatever is written in a file, the answer is a list of faults or a catalogue, never a crash."""

import re

import pytest

from generator.catalogue import CatalogueError, load

from . import tiny

_VALUE = re.compile(
    r"(?<=: )[^\n,{}\[\]]+|(?<=[\[, ])[a-z][a-z0-9.-]*(?=[\],])|(?<=: )\{[^\n]*\}|(?<=: )\[[^\n\]]*\]"
)


def _damaged(text):
    """The text without each of its lines, with each value replaced by things of another type,
    and cut off anywhere."""
    lines = text.splitlines(keepends=True)
    for i in range(len(lines)):
        yield "".join(lines[:i] + lines[i + 1 :])
    for match in _VALUE.finditer(text):
        for other in ("[]", "[x, {}]", "{a: {b: [c]}}", "''", "unknown", "1 V"):
            yield text[: match.start()] + other + text[match.end() :]
    for end in range(0, len(text), 29):
        yield text[:end]


@pytest.mark.parametrize("name", tiny.FILES)
def test_damage(pinouts, name):
    path = pinouts / name
    outcomes = set()
    for text in _damaged(tiny.FILES[name]):
        path.write_text(text, "utf-8")
        try:
            outcomes.add(bool(load(pinouts)))
        except CatalogueError as error:
            assert error.problems
            outcomes.add(False)
    assert False in outcomes
