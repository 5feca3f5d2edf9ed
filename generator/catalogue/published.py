"""The catalogue as plain data: what the engine in the browser, and anyone else's program, reads."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass

from .records import Catalogue


def as_data(catalogue: Catalogue) -> dict:
    """JSON-ready: records become dicts in the order of their fields, tuples become lists,
    maps keep their order."""
    return _plain(catalogue)


def _plain(value):
    if is_dataclass(value):
        return {field.name: _plain(getattr(value, field.name)) for field in fields(value)}
    if isinstance(value, Mapping):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    return value
