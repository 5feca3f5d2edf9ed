"""A file that describes a run -> a Run, or every fault of it with its line."""

from __future__ import annotations

from pathlib import Path

from generator.catalogue import loader
from generator.catalogue.context import Context
from generator.catalogue.nodes import Map, Place
from generator.catalogue.problems import CatalogueError, Problems
from generator.catalogue.records import Catalogue

from . import amount
from .grammar import MAINS, POWERED, grammar
from .guesses import GIVEN, UNITS
from .run import Beside, Device, Lead, Run, Spare, Thing, Transmitter
from .tables import Tables

FLOATING_AMPS = 5e-3  # ten times what a device on a two-pin plug may leak
FOLD = ("mic-pair",)  # what a lead of the catalogue without a cable of its own is taken for


def read(path: Path, catalogue: Catalogue, tables: Tables) -> Run:
    """The run of a file. Raises CatalogueError with every fault, sorted; FileNotFoundError where there is no
    file.
    """
    problems = Problems()
    node = loader.read(path, path.name, problems)
    if node is not None:
        ids = {"leads": dict.fromkeys(catalogue.leads, Place("")), "ports": {}, "cables": {}}
        checked = grammar(tables).check(node, "the run", Context(problems, ids, catalogue.retired))
        if not problems.sorted():
            run = _run(checked, catalogue, tables)
            _hold(run, checked, tables, problems)
    faults = problems.sorted()
    if faults:
        raise CatalogueError(faults)
    return run


def _run(node: Map, catalogue: Catalogue, tables: Tables) -> Run:
    volts, hertz = MAINS[node.text("mains", "230 V 50 Hz")]
    measured = node.map("measured")
    return Run(
        source=_device(node["from"], tables.sources),
        input=_device(node["into"], tables.inputs),
        leads=tuple(_lead(one, catalogue, tables) for one in node["leads"]),
        name=node.text("name", ""),
        volts=volts,
        hertz=hertz,
        sockets=node.text("sockets", "unknown"),
        dimmers=node.text("shares-with-dimmers") == "yes",
        held=node.text("held") == "yes",
        measured_volts=_amount(measured, "volts", "V"),
        measured_amps=_amount(measured, "amps", "A"),
        bond=_amount(node, "bond", "ohm"),
        transformer=node.text("transformer") == "yes",
        ferrite=_amount(node, "ferrite", "ohm"),
        beside=tuple(_beside(one, tables) for one in _many(node, "beside")),
        spare=_spare(node["spare"]) if "spare" in node else None,
        things=tuple(Thing(one.text("thing"), _amount(one, "distance", "m")) for one in _many(node, "near")),
        transmitters=tuple(
            Transmitter(one.text("what"), _amount(one, "distance", "m"), _amount(one, "watts", "W"))
            for one in _many(node, "radio")
        ),
        assume={
            key: amount.parse(value.text, {**UNITS, **GIVEN}[key])
            for key, value in node.map("assume").items()
        },
    )


def _many(node: Map, key: str):
    return node[key] if key in node else ()


def _amount(node: Map, key: str, unit: str) -> float:
    """The number under a key, 0 where it is left out."""
    return amount.parse(node.text(key), unit) if key in node else 0.0


def _device(node: Map, known) -> Device:
    id = node.text("device")
    powered = POWERED[node.text("powered", "unknown")] or known[id]["powered"]
    return Device(id, powered, node.text("contact-1") == "wanders")


def _lead(node: Map, catalogue: Catalogue, tables: Tables) -> Lead:
    if "cable" in node:
        return Lead(
            node.text("cable"),
            _amount(node, "length", "m"),
            node.text("screen", "whole"),
            node.text("cold", "through"),
        )
    lead = catalogue.leads[node.text("lead")]
    known = {row["catalogue"]: id for id, row in tables.cables.items() if "catalogue" in row}
    length = _amount(node, "length", "m") or lead.length or 0.2
    return Lead(
        known.get(lead.cable, FOLD[0]), length, node.text("screen", "whole"), node.text("cold", "through")
    )


def _beside(node: Map, tables: Tables) -> Beside:
    distance = _amount(node, "distance", "m") or tables.constants["tape"]["values"][1]
    return Beside(
        node.text("cable"),
        node.text("load", "unknown"),
        _amount(node, "amps", "A"),
        distance,
        _amount(node, "along", "m"),
        node.text("lies", "alongside"),
    )


def _spare(node: Map) -> Spare:
    return Spare(
        node.text("lies"),
        _amount(node, "turns", "1"),
        _amount(node, "across", "m"),
        _amount(node, "distance", "m"),
    )


def _hold(run: Run, node: Map, tables: Tables, problems: Problems) -> None:
    """What cannot be true together."""
    for one, at in zip(node["leads"], run.leads):
        if "cable" in one and "length" not in one:
            problems.add(
                one.place, "missing-key", "a lead made of a cable lacks the key 'length': how long it is."
            )
        if tables.cables[at.cable]["screen"] == "none" and "screen" in one and at.screen != "whole":
            problems.add(
                one["screen"].place, "no-screen", f"'{at.cable}' has no screen that could be {at.screen}."
            )
    for one, at in zip(_many(node, "beside"), run.beside):
        carries = tables.mains[at.cable]["carries"]
        if at.amps > carries:
            what = tables.mains[at.cable]["name"]
            problems.add(
                one["amps"].place,
                "bad-number",
                f"'{one.text('amps')}' is more than a {what} carries; the most is {carries:g} A.",
            )
        if at.along > run.length:
            message = (
                f"'{one.text('along')}' alongside is more than the run is long; it has {run.length:g} m."
            )
            problems.add(one["along"].place, "bad-number", message)
    if run.sockets == "same battery" and {run.source.powered, run.input.powered} != {"battery"}:
        problems.add(
            node["sockets"].place,
            "bad-choice",
            "'same battery' is for two devices powered by it; one of these is on the mains.",
        )
    if run.measured_amps > FLOATING_AMPS and {run.source.powered, run.input.powered} != {"earthed"}:
        message = (
            f"'{node['measured'].text('amps')}' flows only between two earthed devices; if one of these is "
            "not earthed it has a fault: unplug it, and call an electrician."
        )
        problems.add(node["measured"]["amps"].place, "bad-number", message)
    for one, at in zip(_many(node, "radio"), run.transmitters):
        if at.distance < 0.005:
            problems.add(
                one["distance"].place,
                "bad-number",
                f"'{one.text('distance')}' is inside the transmitter; the least is 5 mm.",
            )
