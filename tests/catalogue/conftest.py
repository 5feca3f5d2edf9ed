import pytest

from . import tiny


@pytest.fixture
def pinouts(tmp_path, monkeypatch):
    """The tiny catalogue, with the reader standing above it."""
    monkeypatch.chdir(tmp_path)
    return tiny.write(tmp_path)


@pytest.fixture
def replace(pinouts):
    """Replaces text that occurs once in a file of the tiny catalogue."""

    def replace(name, old, new):
        path = pinouts / name
        text = path.read_text("utf-8") if path.exists() else ""
        assert text.count(old) == 1 or not text, f"{old!r} must occur once in {name}"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text.replace(old, new) if text else new, "utf-8")

    return replace
