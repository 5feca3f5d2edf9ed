"""Shared by all tests. With RINGFENCE_NO_SKIPS set (continuous integration) a skipped test counts as a failure."""

import os
from pathlib import Path

import pytest

from generator.catalogue import default_directory, load

ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="session")
def catalogue():
    """The real catalogue."""
    return load(default_directory())


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    report = yield
    if report.skipped and os.environ.get("RINGFENCE_NO_SKIPS"):
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} was skipped, and nothing may be skipped here: {call.excinfo.value}"
    return report
