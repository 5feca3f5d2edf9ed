"""What questions are made of, from the catalogue and the ledger as they are in git; nothing is judged."""

import sys
from pathlib import Path

import pytest

from generator.catalogue import default_directory
from generator.ledger import lines
from generator.lessons import Facts
from generator.workshop import kept

sys.path.insert(0, str(Path(__file__).parent))


@pytest.fixture(scope="session")
def facts(catalogue):
    folder = default_directory()
    return Facts(catalogue, list(lines.rows(lines.read(folder / "verdicts"))), kept.read(folder))
