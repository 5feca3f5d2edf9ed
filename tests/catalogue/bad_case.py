"""A bad file: edits (file, old text, new text) to the tiny catalogue, and the exact message its
author gets to see. A file that is not there is written anew."""

import re

import pytest


def case(edits, expected):
    return pytest.param(edits, expected, id=re.search(r"error\[([a-z-]+)", expected)[1])
