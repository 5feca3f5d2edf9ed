import pytest
from catalogue import tiny

from generator.catalogue import load


@pytest.fixture
def pinouts(tmp_path, monkeypatch):
    """The tiny catalogue, with the reader standing above it."""
    monkeypatch.chdir(tmp_path)
    return tiny.write(tmp_path)


@pytest.fixture
def small(pinouts):
    """The tiny catalogue, loaded."""
    return load(pinouts)


@pytest.fixture
def changed(pinouts):
    """The tiny catalogue with a text in one file replaced, loaded anew."""

    def changed(name, old, new):
        path = pinouts / name
        text = path.read_text("utf-8")
        assert text.count(old) == 1
        path.write_text(text.replace(old, new), "utf-8")
        return load(pinouts)

    return changed
