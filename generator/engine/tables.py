"""The tables the engine judges by, as plain data: what the engine in the browser reads
beside the catalogue."""

from __future__ import annotations

from dataclasses import asdict

from . import powering, rulebook


def tables() -> dict[str, list[dict]]:
    """By the name they are published under, JSON-ready."""
    return {
        "rulebook": [_judging(asdict(rule)) for rule in rulebook.rules()],
        "powering": [asdict(pair) for pair in powering.rows()],
    }


def _judging(rule: dict) -> dict:
    """A row without what the glossary and the methods page say of it."""
    return {name: value for name, value in rule.items() if name not in ("means", "met_by")}
