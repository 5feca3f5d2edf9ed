"""Docs trees of the real catalogue with a handful of judged connections: enough for every kind of page, quick
enough for every run. Each is made by one process for all tests."""

from __future__ import annotations

from pathlib import Path

import once

from generator.catalogue import Catalogue
from generator.engine.judge import judge
from generator.ledger import Row, row
from generator.site.address import Address
from generator.site.build import docs

ASKED = (
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr"),
    ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-crossed",), "mixer-mic-in-p48-xlr"),
    ("mic-condenser-p48-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    ("mic-dynamic-xlr", (), "mixer-mic-in-p48-xlr"),
)
HERE = Address("https://example.org/ringfence/", "https://example.org/files/edit/main/")
Files = dict[str, bytes]


def rows(catalogue: Catalogue) -> list[Row]:
    return [row(judge(catalogue, *asked).as_data()) for asked in ASKED]


def plain(catalogue: Catalogue, folder: Path) -> Files:
    """Every file of the docs tree: path -> content."""
    return once.shared(folder, "tree", lambda: docs(catalogue, rows(catalogue)))


def placed(catalogue: Catalogue, folder: Path) -> Files:
    """That of a site which knows where it stands."""
    return once.shared(folder, "placed", lambda: docs(catalogue, rows(catalogue), address=HERE))
