"""The real catalogue with a handful of judged connections: enough for every kind of page, quick enough for every run."""

import pytest

from generator.engine.judge import judge
from generator.ledger import row
from generator.site.build import docs

ASKED = (
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr"),
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-crossed",), "mixer-mic-in-p48-xlr"),
    ("mic-condenser-p48-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    ("mic-dynamic-xlr", (), "mixer-mic-in-p48-xlr"),
)


@pytest.fixture(scope="session")
def judged(catalogue):
    return [judge(catalogue, *asked) for asked in ASKED]


@pytest.fixture(scope="session")
def rows(judged):
    return [row(one.as_data()) for one in judged]


@pytest.fixture(scope="session")
def tree(catalogue, rows):
    """Every file of the docs tree: path -> content."""
    return docs(catalogue, rows)
