"""The workshop's pages: for every lead its sheets and the guided search, and one page that leads to them."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from generator.catalogue.records import Catalogue, Lead
from generator.drawing import draw
from generator.site.bundles import scripts_of
from generator.site.page import Page
from generator.workshop import sheets
from generator.workshop.carried import carried
from generator.workshop.faulty import faults
from generator.workshop.paths import conductors
from generator.workshop.safety import cautions
from generator.workshop.specimen import on_bench
from generator.workshop.tables import table
from generator.workshop.telling import brief

Symptoms = Mapping[str, Mapping[str, list[str]]]


def pages(catalogue: Catalogue, symptoms: Symptoms) -> Iterator[Page]:
    """A page for every lead under /workshop/, and the index."""
    yield Page(
        "workshop/",
        "workshop",
        "Workshop",
        catalogue,
        {"leads": sorted(catalogue.leads.values(), key=lambda lead: lead.name)},
    )
    for lead in catalogue.leads.values():
        yield Page(
            f"workshop/{lead.id}/",
            "workshop_lead",
            f"{lead.name}, workshop",
            catalogue,
            _lead(catalogue, lead, symptoms.get(lead.id, {})),
        )


def _lead(catalogue: Catalogue, lead: Lead, symptoms: Mapping[str, list[str]]) -> dict[str, Any]:
    sheet, data = sheets.build_sheet(catalogue, lead), carried(catalogue, lead, symptoms)
    return {
        "record": lead,
        "sheet": sheet,
        "order": sheets.ordering_sheet(catalogue, lead, sheet["test"]),
        "measuring": cautions(lead, "measuring"),
        "soldering": [text for text in cautions(lead, "soldering") if text not in cautions(lead)],
        "symptoms": _symptoms(catalogue, lead, symptoms),
        "faces": _faces(catalogue, lead),
        "dictionary": _json(data) if data else "",
        "scripts": scripts_of("ui", "workshop") if data else [],
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
