"""The workshop's pages: for every lead its sheets and the guided search, and one page that leads to them."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from generator.catalogue.light import only_light
from generator.catalogue.records import Catalogue, Lead
from generator.drawing import draw
from generator.engine.words import quantity
from generator.site.bundles import scripts_of
from generator.site.page import Page
from generator.workshop import pads, sheets, siblings
from generator.workshop.carried import carried, published
from generator.workshop.dictionary import Dictionary, written
from generator.workshop.faulty import faults
from generator.workshop.paths import conductors
from generator.workshop.safety import cautions
from generator.workshop.specimen import on_bench
from generator.workshop.tables import table
from generator.workshop.telling import brief, shows

STYLES = ["assets/css/workshop.css"]  # not among the styles every page loads
MICROPHONE = (200.0, 2000.0)  # ohm; the microphone and the input a pad is worked out for when nobody says
Symptoms = Mapping[str, Mapping[str, list[str]]]


def pages(catalogue: Catalogue, symptoms: Symptoms) -> Iterator[Page]:
    """A page for every lead under /workshop/, the index, and the pages for runs, pads and upkeep."""
    leads = sorted(catalogue.leads.values(), key=lambda lead: lead.name)
    yield _tool(catalogue, "", "workshop", "Workshop", "workshop", leads=leads)
    yield _tool(catalogue, "trace/", "trace", "Find it in a run", "trace", run=_json(table("run")))
    yield _tool(catalogue, "pads/", "pads", "Pads and blockers", "pads", worked=_worked())
    names = _json({lead.id: lead.name for lead in leads})
    yield _tool(catalogue, "upkeep/", "upkeep", "Upkeep", "data", "circuits", "qr", "upkeep", names=names)
    for lead in catalogue.leads.values():
        yield Page(
            f"workshop/{lead.id}/",
            "workshop_lead",
            f"{lead.name}, workshop",
            catalogue,
            _lead(catalogue, lead, symptoms.get(lead.id, {})),
        )


def data(catalogue: Catalogue) -> dict[str, bytes]:
    """What the bench works out the faults of its lead with: path -> content."""
    start = '"use strict";\nwindow.Ringfence = window.Ringfence || {};\n'
    return {"assets/js/faulty.js": f"{start}Ringfence.faulty = {_json(published(catalogue))};\n".encode()}


def _tool(catalogue: Catalogue, address: str, template: str, title: str, *scripts: str, **show: Any) -> Page:
    """A page of the workshop with scripts of its own."""
    shown = {"scripts": scripts_of("ui", *scripts), "styles": STYLES, **show}
    return Page(f"workshop/{address}", template, title, catalogue, shown)


def _worked() -> list[dict[str, Any]]:
    """Pads between a microphone and its input, for who has no scripts, and for a glance."""
    asked = [(loss, form) for loss in (10.0, 20.0, 30.0, 40.0) for form in ("U", "L")]
    found = [pads.designed(loss, *MICROPHONE, form) for loss, form in asked]
    return [
        {
            "form": pad.form,
            "loss": quantity(pad.does.loss, "dB"),
            "leg": quantity(pad.leg, "ohm"),
            "across": quantity(pad.resistors["across"], "ohm"),
            "sees": [quantity(ohms, "ohm") for ohms in (pad.does.source_sees, pad.does.load_sees)],
        }
        for pad in found
    ]


def _lead(catalogue: Catalogue, lead: Lead, symptoms: Mapping[str, list[str]]) -> dict[str, Any]:
    light = only_light(lead, catalogue.connectors)
    sheet, data = sheets.build_sheet(catalogue, lead), None if light else carried(catalogue, lead, symptoms)
    return {
        "record": lead,
        "sheet": sheet,
        "order": sheets.ordering_sheet(catalogue, lead, sheet["test"]),
        "light": light,
        "fibres": bool(sheet["test"]["light"]),
        "measuring": sheet["cautions"] if sheet["test"]["light"] else cautions(lead, "measuring"),
        "soldering": [text for text in cautions(lead, "soldering") if text not in cautions(lead)],
        "symptoms": _symptoms(catalogue, lead, symptoms),
        "faces": _faces(catalogue, lead) if sheet["solder"] else {},
        "dictionary": _json(data) if data else "",
        "apart": None if light else _apart(catalogue, lead),
        "scripts": scripts_of("ui", "workshop"),
        "styles": STYLES,
    }


def _json(data: Any) -> str:
    """Text that cannot end the element it stands in."""
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"), allow_nan=False).replace("</", "<\\/")


def _symptoms(catalogue: Catalogue, lead: Lead, symptoms: Mapping[str, list[str]]) -> list[dict[str, Any]]:
    """What one hears, and the faults that explain it, the most common first."""
    if not symptoms:
        return []
    specimen = on_bench(catalogue, lead)
    known, nets = {fault.id: fault for fault in faults(specimen)}, conductors(specimen)
    return [
        {
            "says": table("symptoms")[name]["says"],
            "faults": brief(specimen, [known[id] for id in ids if id in known], nets),
        }
        for name, ids in symptoms.items()
    ]


def _apart(catalogue: Catalogue, lead: Lead) -> dict[str, Any] | None:
    """The shortest way to tell a lead from those that look like it; None where nothing does."""
    if not lead.looks_like:
        return None
    known = siblings.apart(catalogue, siblings.alike(catalogue, lead))
    return _way(catalogue, known, siblings.shortest(known))


def _way(catalogue: Catalogue, known: Dictionary, told: Mapping[str, Any]) -> dict[str, Any]:
    """A measurement and its answers in words, down to the leads."""
    if "m" not in told:
        return {"leads": [catalogue.leads[known.faults[place].at[0]] for place in told["leads"]]}
    answers = [
        {
            "shows": " or ".join(dict.fromkeys(shows(known.classes[k]) for k in answer["classes"])),
            "then": _way(catalogue, known, answer["then"]),
        }
        for answer in told["answers"]
    ]
    return {"between": written(known.measurements[told["m"]]), "answers": answers}


def _faces(catalogue: Catalogue, lead: Lead) -> dict[str, str]:
    """End -> the solder side of its connector, drawn where there is such a view."""
    found = {}
    for end in lead.ends.values():
        try:
            found[end.id] = draw(
                catalogue,
                end.connector,
                view="solder",
                half=end.half,
                prefix=f"solder-{end.id}",
                standalone=False,
            )
        except ValueError:  # phone plugs have no face
            continue
    return found
