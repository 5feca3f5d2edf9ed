"""Hum, mains and radio: the page of a run, worked runs with their pictures, curves as pictures and
as tables, and the data a phone computes with.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from generator import interference
from generator.catalogue.records import Catalogue
from generator.drawing import draw_scene, plots, runs
from generator.drawing.scene import Scene
from generator.interference import words
from generator.interference.address import write as address
from generator.interference.answer import answer
from generator.interference.numbers import TYPICAL
from generator.interference.paths import PATHS
from generator.site import curves
from generator.site.bundles import scripts_of
from generator.site.page import Page

MARKED = {
    "chassis": "chassis",
    "loop": "chassis",
    "drain": "chassis",
    "contact-one": "chassis",
    "coil": "spare",
    "electric": "electric",
    "induced": "induced",
}
SHOWN = 3  # cures told with a worked run


@dataclass(frozen=True)
class Worked:
    """A worked run as its page shows it."""

    id: str
    told: interference.Told
    says: str
    most: str
    radio: tuple[str, ...]
    cures: tuple[str, ...]
    idle: tuple[str, ...]
    better_cable: str
    reading: str
    rows: tuple[tuple[str, str, str, str, str], ...]
    picture: str
    bars: str
    address: str


def pages(catalogue: Catalogue, folder: Path) -> Iterator[Page]:
    """The page of a run, and the page of worked runs; `folder` holds the files of these."""
    tables = interference.with_ports(interference.tables(), catalogue)
    yield Page(
        "run/",
        "run",
        "Hum and radio",
        catalogue,
        {"scripts": scripts_of("interference", "runs", "ui", "hum", "run")},
    )
    shown = {"worked": worked(catalogue, tables, folder), "curves": curves.all(tables), "tables": tables}
    yield Page("runs/", "runs", "Worked runs", catalogue, shown)


def data(catalogue: Catalogue) -> dict[str, bytes]:
    """What the page computes with: path -> content."""
    tables = interference.published(interference.with_ports(interference.tables(), catalogue))
    text = json.dumps(tables, ensure_ascii=False, separators=(",", ":"), sort_keys=False)
    start = '"use strict";\nwindow.Ringfence = window.Ringfence || {};\n'
    parsed = json.dumps(text, ensure_ascii=False)  # text to be parsed: quicker for a phone than a literal
    return {"assets/js/runs.js": f"{start}Ringfence.tables = JSON.parse({parsed});\n".encode()}


def with_sources(catalogue: Catalogue) -> Catalogue:
    """The catalogue with the bibliography of the tables beside its own."""
    return replace(catalogue, sources={**catalogue.sources, **interference.references()})


def worked(catalogue: Catalogue, tables: interference.Tables, folder: Path) -> list[Worked]:
    """Every run of the folder, in order of its file; one that names what this catalogue lacks is left out."""
    found = []
    for path in sorted(folder.glob("*.yaml")):
        try:
            run = interference.read(path, catalogue, tables)
        except interference.CatalogueError:
            continue
        found.append(_worked(path.stem, interference.tell(run, tables), tables))
    return found


def _worked(id: str, told: interference.Told, tables: interference.Tables) -> Worked:
    a = told.answer
    helping = words.worth_telling(a, told.remedies)
    picture = draw_scene(laid(told, tables), prefix=f"run-{id}", standalone=False)
    return Worked(
        id,
        told,
        words.headline(a),
        tables.formulas[a.dominant]["words"] if a.dominant else "",
        tuple(words.of_radio(one, tables) for one in a.radio),
        tuple(words.of_remedy(one, tables) for one in helping[:SHOWN]),
        tuple(one.words for one in told.remedies if not words.helps(one)),
        words.better_cable(told.remedies),
        words.of_reading(told.reading) if told.reading else "",
        tuple(_rows(told, tables)),
        picture,
        draw_scene(_bars(told, tables), prefix=f"bars-{id}", standalone=False),
        address(told.run),
    )


def laid(told: interference.Told, tables: interference.Tables) -> Scene:
    """The picture of a run: what lies where, the dominant path marked."""
    run, a = told.run, told.answer
    beside = [_beside(one, tables) for one in run.beside]
    beside += [f"{tables.things[one.thing]['name']}, {words.metres(one.distance)} away" for one in run.things]
    above = [
        f"{tables.transmitters[one.transmitter]['name']} at {words.metres(one.distance)}"
        for one in run.transmitters
    ]
    spare = (
        f"{run.spare.turns:g} turns of spare lead, {words.metres(run.spare.across)} across"
        if run.spare
        else ""
    )
    lead = ", then ".join(
        f"{words.metres(one.length)} of {tables.cables[one.cable]['name']}" for one in run.leads
    )
    return runs.laid(
        runs.Laid(
            run.name or "A run",
            tables.sources[run.source.device]["name"],
            tables.inputs[run.input.device]["name"],
            (run.source.powered, run.input.powered),
            lead,
            a.balanced,
            a.closed,
            tuple(beside),
            (*(one.lies == "crossing" for one in run.beside), *(False for _ in run.things)),
            tuple(above),
            spare,
            MARKED.get(a.dominant, ""),
            tables.formulas[a.dominant]["name"].lower() if a.dominant else "",
        )
    )


def _beside(one, tables: interference.Tables) -> str:
    cable, load = tables.mains[one.cable]["name"], tables.loads[one.load]["name"]
    return f"{cable}, {load}, {words.metres(one.distance)} away"


def _bars(told: interference.Told, tables: interference.Tables):
    """Every way in against the noise, before and after the best cure."""
    a = told.answer
    worth = words.worth_telling(a, told.remedies)
    best = next((one for one in worth if not words.for_radio(one)), None)
    after = answer(best.of, tables) if best else None
    rows = []
    for name in PATHS:
        level = a.paths[name].noise[TYPICAL]
        if level is not None:
            left = after.paths[name].noise[TYPICAL] if after else None
            rows.append(
                plots.Bar(
                    tables.formulas[name]["name"],
                    level,
                    (-200.0 if left is None else left) if after else None,
                    name == a.dominant,
                )
            )
    subtitle = f"thin: {best.words}" if best else "to the ear"
    return plots.bars("Each way in, against the noise", subtitle, "noise", rows)


def _rows(told: interference.Told, tables: interference.Tables) -> Iterator[tuple[str, str, str, str, str]]:
    """(path, quiet, typical, loud, below what is wanted)."""
    levels = [(tables.formulas[name]["name"], told.answer.paths[name]) for name in PATHS] + [
        ("All together", told.answer.total)
    ]
    for name, level in levels:
        if level.volts[-1]:
            below = level.below[TYPICAL]
            yield (
                name,
                *(words.one_figure(volts, "V") for volts in level.volts),
                "–" if below is None else words.decibels(below),
            )
