"""The real catalogue with a handful of judged connections: enough for every kind of page, quick
enough for every run."""

from dataclasses import replace

import once
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
def altered(catalogue, rows, tmp_path_factory):
    """Every file of the docs tree of a catalogue with hostile names and with ids that moved and split."""
    port, lead = catalogue.ports["mic-dynamic-xlr"], catalogue.leads["xlr-f-to-xlr-m-3m"]
    return once.shared(
        once.common(tmp_path_factory),
        "altered",
        lambda: docs(
            replace(
                catalogue,
                ports=catalogue.ports
                | {port.id: replace(port, name='<script>alert(1)</script> **x** [y](z) "q"')},
                leads=catalogue.leads | {lead.id: replace(lead, name='"><script>alert(1)</script>')},
                retired={"old-mic": ("mic-dynamic-xlr",), "split": ("mic-dynamic-xlr", "mic-ribbon-xlr")},
            ),
            rows,
        ),
    )


@pytest.fixture(scope="session")
def tree(catalogue, rows, tmp_path_factory):
    """Every file of the docs tree: path -> content."""
    return once.shared(once.common(tmp_path_factory), "tree", lambda: docs(catalogue, rows))
