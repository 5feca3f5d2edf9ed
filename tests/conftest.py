"""Shared by all tests. With RINGFENCE_NO_SKIPS set (continuous integration) a skipped
test counts as a failure.

Under `pytest -n` every process has its own session fixtures; what takes long is in `once.py`,
made by one process for all.
"""

import os

import pytest

from generator.__main__ import main
from generator.catalogue import default_directory, load
from generator.engine import pairings


@pytest.fixture(scope="session")
def catalogue():
    """The real catalogue."""
    return load(default_directory())


@pytest.fixture(scope="session")
def every_pairing(catalogue):
    """Every pairing of the real catalogue: (outlet, leads, inlet)."""
    return list(pairings(catalogue))


@pytest.fixture
def ask(capsys):
    """Runs a command; gives (exit status, what it printed, what it complained)."""

    def ask(*words):
        try:
            status = main([str(word) for word in words])
        except SystemExit as left:  # argparse
            status = left.code
        return (status, *capsys.readouterr())

    return ask


# begun first
LONG = (
    "oracle/test_pairings.py",
    "data/test_ledger_is_current.py",
    "browser/test_check_page.py",  # builds the site, which all others of its folder wait for
    "oracle/test_no_missed_danger.py",
    "twin/",
    "drawing/test_nothing_collides.py",
    "site/test_built_site.py",
    "browser/test_kept_whole.py",
    "drawing/test_every_record.py",
    "site/test_take.py",
    "engine/test_routes.py",
    "site/test_pages.py",
    "engine/",
    "own/test_twin.py",
    "interference/test_twin.py",
    "oracle/",
    "browser/",
)


def pytest_collection_modifyitems(items):
    """Files that take minutes come first, so that no process is left with one of them at the end."""
    items.sort(
        key=lambda item: next(
            (place for place, name in enumerate(LONG) if f"tests/{name}" in item.path.as_posix()), len(LONG)
        )
    )


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    report = yield
    if report.skipped and os.environ.get("RINGFENCE_NO_SKIPS"):
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} was skipped, and nothing may be skipped here: {call.excinfo.value}"
    return report


def pytest_terminal_summary(terminalreporter):
    """What tests recorded as `told`: how much was compared and how far apart the two were. Printed here, for
    `pytest -n` lets no test speak."""
    for report in terminalreporter.getreports("passed") + terminalreporter.getreports("failed"):
        for name, words in report.user_properties:
            if name == "told":
                terminalreporter.write_line(words)
