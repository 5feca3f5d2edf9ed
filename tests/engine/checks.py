"""A number worked out by hand or printed somewhere, with where it comes from."""

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Check:
    asked: str
    source: str
    expected: float
    unit: str
    found: Callable


def derived(asked, expected, unit, found, formula):
    return Check(asked, f"derived: {formula}", expected, unit, found)


def published(asked, expected, unit, found, source):
    return Check(asked, f"published: {source}", expected, unit, found)


def from_memory(asked, expected, unit, found, formula):
    return Check(asked, f"from memory: {formula}", expected, unit, found)
