"""The real catalogue with a handful of judged connections."""

from dataclasses import replace

import once
import pytest
import trees

from generator.engine.judge import judge
from generator.ledger import row
from generator.site.build import docs


@pytest.fixture(scope="session")
def judged(catalogue):
    return [judge(catalogue, *asked) for asked in trees.ASKED]


@pytest.fixture(scope="session")
def rows(judged):
    return [row(one.as_data()) for one in judged]


@pytest.fixture(scope="session")
def altered(catalogue, rows, tmp_path_factory):
    """Every file of the docs tree of a catalogue with hostile names, with ids that moved and split, and with
    a port and a lead out of somebody's own files."""
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
                local=("mic-ribbon-xlr", "xlr-f-to-xlr-m-crossed-3m"),
                retired={"old-mic": ("mic-dynamic-xlr",), "split": ("mic-dynamic-xlr", "mic-ribbon-xlr")},
            ),
            rows,
        ),
    )


@pytest.fixture(scope="session")
def tree(catalogue, tmp_path_factory):
    """Every file of the docs tree: path -> content."""
    return trees.plain(catalogue, once.common(tmp_path_factory))
