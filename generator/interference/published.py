"""The tables as plain data: what the browser computes with is what Python computes with."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from .guesses import GIVEN, UNITS
from .tables import Tables

PRINTED = ("bibliography", "lengths")  # what no answer is made of


def as_data(tables: Tables) -> dict[str, Any]:
    """Every table an answer needs, by name, with the units of what can be replaced."""
    names = [one.name for one in fields(tables) if one.name not in PRINTED]
    return {name: getattr(tables, name) for name in names} | {"units": {**UNITS, **GIVEN}}
