"""A memory of the tiny catalogue's pairings, and how often each is judged from nothing."""

import sqlite3
from collections import Counter
from importlib import import_module

from generator.ledger.recorded import recorded

JUDGED = import_module("generator.ledger.judged")  # the package offers a function of the same name


def count_judged(monkeypatch):
    """Counts which pairings are judged from nothing."""
    calls = Counter()

    def counting(catalogue, start, through, target):
        calls[through] += 1
        return recorded(catalogue, start, through, target)

    monkeypatch.setattr(JUDGED, "recorded", counting)
    return calls


ALL = {("block",): 1, ("crossed",): 1, ("straight",): 1}
MEMORY = "build/readings.sqlite"


def a_memory(tmp_path):
    return tmp_path / MEMORY


def asked(memory, words, *given):
    with sqlite3.connect(memory) as file:
        return file.execute(words, given).fetchall()
