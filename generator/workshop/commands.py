"""The workshop on the command line: what each command is asked, and its answer as data and as text.
Printing is left to the caller."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from generator.catalogue.records import Catalogue

from . import readings
from .safety import cautions
from .specimen import on_bench

Answer = tuple[Any, str]  # JSON-ready data, and text


@dataclass(frozen=True)
class Command:
    """`about` for the help; `asks` adds its arguments; `answers` them. Raises Misuse for what cannot be
    answered. `of` tells what its positional argument names."""

    about: str
    answers: Callable[[Catalogue, Namespace], Answer]
    asks: Callable[[ArgumentParser], None] = lambda parser: None
    of: str | None = "lead"


def meter(catalogue: Catalogue, options: Namespace) -> Answer:
    """What a meter should read on a good lead."""
    lead = catalogue.leads[options.lead]
    found, warned = readings.readings(on_bench(catalogue, lead)), cautions(lead, "measuring")
    data = {
        "lead": lead.id,
        "readings": readings.as_data(found),
        "unseen": readings.unseen(),
        "cautions": warned,
    }
    lines = [lead.name, *(f"  Take care: {text}" for text in warned), *sheet(found), f"  {readings.unseen()}"]
    return data, "\n".join(lines)


def sheet(found: list[readings.Reading]) -> list[str]:
    """A line for each pair that shows something; what shows nothing is told together."""
    telling = [reading for reading in found if readings.said(reading) != readings.NONE]
    silent = len(found) - len(telling)
    return [
        *(f"  {reading.pair:24} {readings.said(reading)}" for reading in telling),
        f"  all {silent} other pairs: {readings.NONE}",
    ]


COMMANDS: Mapping[str, Command] = {
    "meter": Command("Tell what a meter should read between every two contacts of a lead.", meter)
}
