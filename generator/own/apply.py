"""A port with some of its numbers replaced by those of a manual. The twin of assets/js/own/apply.js.

The engine is given a changed record and knows of nothing else. The same answers written as a file of one's
own (`same_as` and what differs) make the same record when it is read.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from generator.catalogue.asked import Ask, Fed, Question
from generator.catalogue.quantity import parse
from generator.catalogue.records import OWN, Evidence, Port, Quantity

from .said import said

GROUNDED = {("limits", "settled"), ("needs", "least")}  # numbers that bring the evidence of their record


def changed(port: Port, answers: Mapping[str, str], questions: Mapping[str, Question]) -> Port:
    """`answers`: id of an ask of this port -> what was typed. An answer that is silent changes nothing.
    Raises Nonsense for one that means nothing, KeyError for an ask the port has not."""
    values = parameters(port, answers, questions)
    known = Evidence(OWN, checked=port.evidence.checked)
    for one, text in values:
        port = _put(port, one, parse(text), known)
    return port


def parameters(
    port: Port, answers: Mapping[str, str], questions: Mapping[str, Question]
) -> list[tuple[Fed, str]]:
    """What the answers set, in order: yes and no first, so that a number has the last word."""
    asks = {ask.id: ask for ask in port.asks}
    missing = next((id for id in answers if id not in asks), None)
    if missing:
        raise KeyError(missing)
    given = [
        (ask, said(answers[ask.id], ask, questions[ask.question])) for ask in port.asks if ask.id in answers
    ]
    given.sort(key=lambda one: not one[0].answers)
    return [
        (one, text)
        for ask, answer in given
        if answer
        for name, text in _values(ask, answer)
        for one in ask.feeds[name]
    ]


def _values(ask: Ask, answer: str) -> list[tuple[str, str]]:
    """Parameter and value."""
    return list(ask.answers[answer].items()) if ask.answers else [(name, answer) for name in ask.feeds]


def _put(port: Port, one: Fed, value: Quantity | None, known: Evidence) -> Port:
    number = value if one.take == "whole" else value and getattr(value, one.take)
    fields = {one.field: number} | ({"evidence": known} if (one.kind, one.field) in GROUNDED else {})
    put = lambda records: tuple(
        replace(record, **fields) if record.id == one.id else record for record in records
    )
    if one.kind in ("parts", "limits"):
        return replace(
            port, network=replace(port.network, **{one.kind: put(getattr(port.network, one.kind))})
        )
    return replace(port, **{one.kind: put(getattr(port, one.kind))})
