"""The tables, alone and with the ports of the catalogue; a way to write a run and read it."""

from pathlib import Path

import pytest

from generator import interference
from generator.catalogue import CatalogueError, default_directory, load


@pytest.fixture(scope="session")
def catalogue():
    return load(default_directory())


@pytest.fixture(scope="session")
def tables():
    return interference.tables()


@pytest.fixture(scope="session")
def everything(tables, catalogue):
    """The tables with every port of the catalogue."""
    return interference.with_ports(tables, catalogue)


@pytest.fixture
def write(tmp_path):
    """Writes the text of a run; gives its path."""

    def write(text: str) -> Path:
        path = tmp_path / "run.yaml"
        path.write_text(text, encoding="utf-8")
        return path

    return write


@pytest.fixture
def read(write, catalogue, everything):
    """Text -> run."""
    return lambda text: interference.read(write(text), catalogue, everything)


@pytest.fixture
def faults(read):
    """Text -> what is said against it, one line for each fault and one for its words."""

    def faults(text: str) -> str:
        with pytest.raises(CatalogueError) as caught:
            read(text)
        return str(caught.value)

    return faults
