"""The workshop on the command line: what each command is asked, and its answer as data and as text.
Printing is left to the caller."""

from __future__ import annotations

import re
from argparse import ArgumentParser, Namespace
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from generator.catalogue.light import only_light
from generator.catalogue.quantity import QuantityFault, parse
from generator.catalogue.records import Catalogue, Lead

from . import blockers, book, kept, pads, readings, run, sheets
from .guided import guided
from .safety import Misuse, cautions, refuse_mains
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

    def leads(self, options: Namespace) -> list[str]:
        """The leads that are named. Raises Misuse for a mains lead."""
        if self.of == "lead":
            refuse_mains(options.lead)
            return [options.lead]
        return options.leads if self.of == "leads" else options.through if self.of == "run" else []


def meter(catalogue: Catalogue, options: Namespace) -> Answer:
    """What a meter should read on a good lead."""
    lead = catalogue.leads[options.lead]
    light = only_light(lead, catalogue.connectors)
    found = [] if light else readings.readings(on_bench(catalogue, lead))
    warned = cautions(lead, "light" if light else "measuring")
    data = {
        "lead": lead.id,
        "readings": readings.as_data(found),
        "unseen": readings.unseen(),
        "cautions": warned,
        "light": sheets.fibre_test(catalogue, lead),
    }
    told = [] if light else [*sheet(found), f"  {readings.unseen()}"]
    lines = [
        lead.name,
        *(f"  Take care: {text}" for text in warned),
        *told,
        *(f"  {words}" for words in data["light"]),
    ]
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
    lead = _metered(catalogue, options.lead)
    data = book.as_data(catalogue, lead)
    return data, book.text(lead, data)


def diagnose(catalogue: Catalogue, options: Namespace) -> Answer:
    """What is likely after the readings so far, and the next one to make."""
    return guided(catalogue, _metered(catalogue, options.lead), options.read, options.which)


def _metered(catalogue: Catalogue, name: str) -> Lead:
    """A lead whose faults a meter can find. Raises Misuse for one of fibres alone."""
    lead = catalogue.leads[name]
    if only_light(lead, catalogue.connectors):
        raise Misuse(f"'{name}' is all fibre: no meter finds its faults. `meter {name}` says how to test it.")
    return lead


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


def pad(catalogue: Catalogue, options: Namespace) -> Answer:
    """A pad designed to a loss."""
    loss, source, load = (_quantity(getattr(options, name), unit, name) for name, unit in PAD)
    found = pads.designed(loss, source, load, options.form.upper(), options.series.upper(), options.matched)
    data = pads.as_data(found, loss, source, load)
    return data, pads.text(data)


def blocker(catalogue: Catalogue, options: Namespace) -> Answer:
    """A phantom blocker designed to a corner."""
    hertz, ohms = _hertz(options.corner), _quantity(options.circuit, "ohm", "circuit")
    data = blockers.designed(hertz, ohms)
    return data, blockers.text(data)


def build(catalogue: Catalogue, options: Namespace) -> Answer:
    """Build sheet, test sheet and ordering sheet of a lead."""
    lead = catalogue.leads[options.lead]
    sheet, order = sheets.build_sheet(catalogue, lead), sheets.ordering_sheet(catalogue, lead)
    return {**sheet, "order": order}, sheets.text(sheet, order)


def trace(catalogue: Catalogue, options: Namespace) -> Answer:
    """The next swap or removal on a run."""
    data = run.traced(
        catalogue, options.start, options.through, options.target, options.symptom, options.tried
    )
    return data, run.text(data)


def _trace(parser: ArgumentParser) -> None:
    parser.add_argument("start", metavar="FROM")
    parser.add_argument(
        "--through", action="append", default=[], metavar="LEAD", help="a lead or adapter, in order"
    )
    parser.add_argument("target", metavar="INTO")
    parser.add_argument("--symptom", required=True, help=", ".join(run.SYMPTOMS))
    parser.add_argument(
        "--tried",
        action="append",
        default=[],
        metavar="swap-lead1=stays",
        help="what was tried, and gone or stays",
    )


def symptoms(catalogue: Catalogue, options: Namespace) -> Answer:
    """Work out what every fault of some or all leads sounds like and keep it with the catalogue."""
    before = kept.read(options.pinouts)
    found = dict(kept.worked_out(catalogue, options.leads or list(catalogue.leads)))
    changed = [lead for lead in found if before.get(lead, {}) != found[lead]]
    kept.write(
        options.pinouts, {id: told for id, told in {**before, **found}.items() if id in catalogue.leads}
    )
    return {"leads": len(found), "changed": changed}, f"{len(found)} leads, {len(changed)} of them changed"


def _symptoms(parser: ArgumentParser) -> None:
    parser.add_argument("leads", nargs="*", metavar="LEAD", help="all, if none is named")


PAD = (("loss", "dB"), ("source", "ohm"), ("load", "ohm"))


def _quantity(text: str, unit: str, name: str) -> float:
    """The value of an option. Raises Misuse for what is no such quantity or not above zero."""
    try:
        found = parse(text, unit)
    except QuantityFault as fault:
        raise Misuse(f"--{name}: {fault}") from None
    if found is None or found.nominal <= 0:
        raise Misuse(
            f"--{name}: '{text}' is not above zero; write a "
            f"{'loss like 20 dB' if unit == 'dB' else 'resistance like 200 ohm'}."
        )
    return found.nominal


def _hertz(text: str) -> float:
    found = re.fullmatch(r"(\d+(?:\.\d+)?) *Hz", text.strip(), re.IGNORECASE)
    if not found or float(found[1]) <= 0:
        raise Misuse(f"--corner: '{text}' is not a frequency above zero; write it like 10 Hz.")
    return float(found[1])


def _pad(parser: ArgumentParser) -> None:
    parser.add_argument("--loss", required=True, metavar="20dB", help="what putting it in shall cost")
    parser.add_argument("--source", default="200 ohm", metavar="200ohm", help="the source's impedance")
    parser.add_argument("--load", default="2 kohm", metavar="2kohm", help="the input's impedance")
    parser.add_argument("--form", default="U", help="U, H, L (unbalanced) or O")
    parser.add_argument("--series", default="E24", choices=["E24", "E96"], help="the values one can buy")
    parser.add_argument(
        "--matched", action="store_true", help="an O-pad that both ends see as themselves (H always is)"
    )


def _blocker(parser: ArgumentParser) -> None:
    parser.add_argument("--corner", default="10 Hz", metavar="10Hz", help="where it may have cost 3 dB")
    parser.add_argument(
        "--circuit", default="1.65 kohm", metavar="1.65kohm", help="source and input impedance together"
    )


COMMANDS: Mapping[str, Command] = {
    "meter": Command("Tell what a meter should read between every two contacts of a lead.", meter),
    "faults": Command("Tell what every single fault of a lead reads and sounds like.", faults),
    "diagnose": Command(
        "Tell what is wrong with a lead, or which lead it is, reading by reading.", diagnose, _diagnose
    ),
    "build": Command("Print the build sheet of a lead, its test sheet, and a sheet to order it by.", build),
    "trace": Command("Find what is wrong in a run by swapping and removing.", trace, _trace, "run"),
    "symptoms": Command(
        "Work out what the faults of leads sound like, and keep it (minutes for all).",
        symptoms,
        _symptoms,
        "leads",
    ),
    "pad": Command("Design a pad to a loss, with parts one can buy.", pad, _pad, None),
    "blocker": Command("Design a phantom blocker to a corner.", blocker, _blocker, None),
}
