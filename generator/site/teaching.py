"""The numbers on the teaching pictures: from the engine, the formulas of a run, and what mates."""

from __future__ import annotations

from dataclasses import replace

from generator.catalogue.records import Catalogue
from generator.drawing import figures
from generator.drawing.scene import Scene
from generator.engine.assemble import assemble, ways
from generator.engine.explain import explain
from generator.engine.judge import read
from generator.engine.slices import case_of
from generator.interference import words
from generator.interference.answer import answer
from generator.interference.numbers import TYPICAL
from generator.interference.run import Device, Lead, Run
from generator.site import told_numbers

PAIR = (
    "mic-dynamic-xlr",
    "mixer-mic-in-p48-xlr",
    "mixer-mic-in-p48-635",
)  # the microphone, its input as it should be met, and on a jack
ALIKE, JOINED = "xlr-f-to-xlr-m-3m", "xlr-f-to-635-ts-3-to-1"
STEREO = ("player-line-out-35", "phone-35-trs-to-xlr-m-left-2-right-3", "mixer-line-in-xlr")
METRES = 5.0


def picture(catalogue: Catalogue, name: str) -> Scene | None:
    """The teaching picture of that name (PICTURES); None where the catalogue lacks what it shows. Raises
    KeyError for an unknown name.
    """
    makes, records = PICTURES[name]
    known = {*catalogue.connectors, *catalogue.ports, *catalogue.leads}
    return makes(catalogue) if set(records) <= known else None


def sliding(catalogue: Catalogue, plug: str, jack: str, assignment: str) -> list[Scene]:
    """The frames of a plug on its way into a jack that carries this assignment, by ids; none where the
    catalogue lacks one of them.
    """
    if {plug, jack} - set(catalogue.connectors) or assignment not in catalogue.assignments:
        return []
    contact = {role: name for name, role in catalogue.assignments[assignment].carries.items()}
    return figures.sliding(
        catalogue.connectors[plug],
        catalogue.connectors[jack],
        (contact["hot"], contact["cold"]),
        contact["screen"],
    )


def pair(
    catalogue: Catalogue, start: str, lead: str, target: str, part: str = "voice coil"
) -> tuple[float, float, float]:
    """Volts of the hot and of the cold leg against the screen, at the microphone, and amperes through
    `part`: supplies on, every part at its
    nominal value, settled. Raises ValueError where no such current is found."""
    outlet, inlet, leads = catalogue.ports[start], catalogue.ports[target], [catalogue.leads[lead]]
    way = ways(catalogue, outlet, leads, inlet)[0]
    assembly = assemble(catalogue, outlet, leads, inlet, way)
    for reading in read(catalogue, outlet, leads, inlet, way):
        if (
            reading.quantity,
            reading.where,
            reading.at and reading.at.nature,
            reading.state,
            reading.setting,
        ) == ("part-amps", part, "direct", "settled", 0):
            case = case_of(assembly, replace(reading, at=replace(reading.at, corner="nominal", off="")))
            amps = case.amps[case.circuit.index[reading.at.decides]]
            hot, cold = (float(case.volts(f"from/{leg}", "from/chassis")) for leg in ("hot", "cold"))
            return hot, cold, abs(float(amps))
    raise ValueError(
        f"no settled direct current through a {part} is read from '{start}' through '{lead}' into '{target}'"
    )


def phantom(catalogue: Catalogue) -> Scene:
    microphone, straight, jack = PAIR
    told = []
    for target, lead, says in (
        (
            straight,
            ALIKE,
            "As it is meant: the push is the same on both legs, and nothing flows between them.",
        ),
        (jack, JOINED, "Contact 3 joined to contact 1: what pushes on 2 flows through the coil."),
    ):
        hot, cold, amps = pair(catalogue, microphone, lead, target)
        told.append(
            figures.Pair(says, volts(hot), volts(cold), f"{two(amps * 1e3)} mA", joined=lead == JOINED)
        )
    return figures.phantom(*told)


def stereo(catalogue: Catalogue) -> Scene:
    start, lead, target = STEREO
    shown = explain(catalogue, start, [lead], target, "cancels-in-mono")
    at = {node: net.volts for net in shown.nets for node in net.nodes}
    legs = [at[f"XLR male to the input {contact}"] for contact in "23"]
    heard = next(part.volts for part in shown.parts if part.kind == "meter")
    return figures.cancelling(*map(volts, (*legs, heard)), f"{volts(shown.level)} from each")


def balance(catalogue: Catalogue) -> Scene:
    return figures.balance(
        below("line-unbalanced", "line-input-unbalanced", "coax-thin"),
        below("line-balanced", "line-input", "mic-pair"),
        words.metres(METRES),
    )


def below(source: str, into: str, cable: str) -> str:
    """How far the hum lies below the sound, between two earthed devices on different circuits."""
    run = Run(
        Device(source, "earthed"), Device(into, "earthed"), (Lead(cable, METRES),), sockets="other circuit"
    )
    return words.decibels(answer(run, told_numbers.TABLES).total.below[TYPICAL])


def fields(catalogue: Catalogue) -> Scene:
    told = told_numbers.told
    return figures.fields(
        f"It goes through the screen: copper takes {told('copper')} of 50 Hz. The twist stops it, by "
        f"{told('untwisted')} against loose wires; so do distance and right angles.",
        f"It runs along the outside. Distance stops it (keep a phone {told('phone-clear')} away), so do "
        "whole screens joined at both ends, and a ferrite.",
    )


def volts(value: float) -> str:
    return f"{two(value)} V"


def two(value: float) -> str:
    """Two figures; what is less than a thousandth is nothing."""
    return "0" if abs(value) < 1e-3 else f"{float(f'{value:.2g}'):g}".replace("-", "−")


PICTURES = {
    "phantom": (phantom, (*PAIR, ALIKE, JOINED)),
    "stereo": (stereo, STEREO),
    "balance": (balance, ()),
    "fields": (fields, ()),
}
