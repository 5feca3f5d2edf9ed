"""The workshop on the command line: what each command is asked, and its answer as data and as text.
Printing is left to the caller."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from generator.catalogue.records import Catalogue

from . import book, readings
from .guided import guided
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


def faults(catalogue: Catalogue, options: Namespace) -> Answer:
    """The fault dictionary of a lead: readings, and what one hears between the usual devices."""
    lead = catalogue.leads[options.lead]
    data = book.as_data(catalogue, lead)
    return data, book.text(lead, data)


def diagnose(catalogue: Catalogue, options: Namespace) -> Answer:
    """What is likely after the readings so far, and the next one to make."""
    return guided(catalogue, catalogue.leads[options.lead], options.read, options.which)


def _diagnose(parser: ArgumentParser) -> None:
    parser.add_argument(
        "--read",
        action="append",
        default=[],
        metavar="A.1-B.1=0.3ohm",
        help="what the meter showed; again for each reading",
    )
    parser.add_argument(
        "--which",
        action="store_true",
        help="tell which of the look-alikes it is instead of what is wrong with it",
    )


COMMANDS: Mapping[str, Command] = {
    "meter": Command("Tell what a meter should read between every two contacts of a lead.", meter),
    "faults": Command("Tell what every single fault of a lead reads and sounds like.", faults),
    "diagnose": Command(
        "Tell what is wrong with a lead, or which lead it is, reading by reading.", diagnose, _diagnose
    ),
}
