"""Kits for common jobs, which somebody begins their own with. Ids that are not in the
catalogue are refused."""

from __future__ import annotations

from pathlib import Path

import yaml

from generator.catalogue.records import Catalogue

FILE = Path(__file__).parents[2] / "site_src/guides/kits.yaml"


def read(catalogue: Catalogue, file: Path = FILE) -> list[dict]:
    """[{id, name, for, ports, leads}] as the file has them. ValueError names what is not in the catalogue."""
    given = _given(file)
    for kit in given:
        for kind, known in (("ports", catalogue.ports), ("leads", catalogue.leads)):
            for id in kit[kind]:
                if id not in known:
                    raise ValueError(
                        f"{file.name}: {kit['id']} has '{id}', and there is no such id among the {kind}."
                    )
    return given


def at_hand(catalogue: Catalogue, file: Path = FILE) -> list[dict]:
    """Those of which a catalogue, which may be somebody's own, has everything."""
    return [
        kit
        for kit in _given(file)
        if set(kit["ports"]) <= set(catalogue.ports) and set(kit["leads"]) <= set(catalogue.leads)
    ]


def _given(file: Path) -> list[dict]:
    return [
        {key: kit[key] for key in ("id", "name", "for", "ports", "leads")}
        for kit in yaml.safe_load(file.read_text())
    ]
