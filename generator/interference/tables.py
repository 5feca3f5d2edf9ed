"""The numbers nobody types: powering, cables, mains, transmitters, hearing. YAML -> frozen rows, every one
with its evidence and reason.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from generator.catalogue.records import GRADES, Reference

from . import amount
from .formulas import wave

FOLDER = Path(__file__).parent / "tables"
NAMES = (
    "powering",
    "sources",
    "beside",
    "radio",
    "hearing",
    "constants",
    "devices",
    "cables",
    "formulas",
    "remedies",
    "never",
    "cautions",
    "lengths",
)
UNWORDED = (
    "evidence",
    "cite",
    "reason",
    "name",
    "words",
    "wave",
    "kind",
    "powered",
    "sockets",
    "build",
    "screen",
    "shapes",
    "buzz",
    "unit",
    "formula",
    "holds",
    "but",
    "why",
    "leaves_out",
    "off",
    "catalogue",
)


@dataclass(frozen=True)
class Tables:
    """Every table as plain data in SI units: what the browser reads is the same. Triples are quiet, typical,
    loud.
    """

    powering: Mapping[str, Mapping[str, Any]]
    cables: Mapping[str, Mapping[str, Any]]
    mains: Mapping[str, Mapping[str, Any]]
    loads: Mapping[str, Mapping[str, Any]]
    waves: Mapping[str, Mapping[str, Any]]
    things: Mapping[str, Mapping[str, Any]]
    transmitters: Mapping[str, Mapping[str, Any]]
    radio: Mapping[str, Mapping[str, Any]]
    chokes: Mapping[str, Mapping[str, Any]]
    hearing: Mapping[str, Mapping[str, Any]]
    constants: Mapping[str, Mapping[str, Any]]
    sources: Mapping[str, Mapping[str, Any]]
    inputs: Mapping[str, Mapping[str, Any]]
    formulas: Mapping[str, Mapping[str, Any]]
    remedies: Mapping[str, Mapping[str, Any]]
    never: Mapping[str, Mapping[str, Any]]
    cautions: Mapping[str, Mapping[str, Any]]
    lengths: Mapping[str, Mapping[str, Any]]
    bibliography: Mapping[str, Mapping[str, str]]
    spectra: Mapping[str, Mapping[str, tuple[float, ...]]] = field(
        default_factory=dict
    )  # hertz -> shape -> shares


@cache
def read() -> Tables:
    """The tables of this package. Raises ValueError naming file and row where one is not fit to be used."""
    raw = {name: _file(name) for name in NAMES}
    beside = raw["beside"]
    tables = Tables(
        raw["powering"],
        raw["cables"],
        beside["cables"],
        beside["loads"],
        beside["waves"],
        beside["things"],
        raw["radio"]["transmitters"],
        raw["radio"]["rules"],
        raw["radio"]["chokes"],
        raw["hearing"],
        raw["constants"],
        raw["devices"]["sources"],
        raw["devices"]["inputs"],
        raw["formulas"],
        raw["remedies"],
        raw["never"],
        raw["cautions"],
        raw["lengths"],
        raw["sources"],
        _spectra(beside["waves"]),
    )
    return tables


def references() -> dict[str, Reference]:
    """The bibliography of the tables, as the catalogue has its own."""
    return {
        id: Reference(id, row["title"], row["where"], row["kind"]) for id, row in read().bibliography.items()
    }


def _file(name: str) -> dict[str, Any]:
    rows = yaml.load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    if name == "sources":
        return rows
    nested = name in ("beside", "devices", "radio")
    return {
        key: {id: _row(name, id, row) for id, row in rows[key].items()}
        if nested
        else _row(name, key, rows[key])
        for key in rows
    }


def _row(file: str, id: str, row: Mapping[str, Any]) -> dict[str, Any]:
    where = f"{file}.yaml: '{id}'"
    if row.get("evidence") not in GRADES:
        raise ValueError(f"{where} has no evidence of a known grade")
    if not row.get("reason"):
        raise ValueError(f"{where} gives no reason")
    if row["evidence"] in ("standard", "published") and not row.get("cite"):
        raise ValueError(f"{where} is {row['evidence']} and cites nothing")
    if row["evidence"] == "from memory" and not any(
        word in row["reason"] for word in ("confirm", "measure", "label", "ask")
    ):
        raise ValueError(f"{where} is from memory and does not say what would confirm it")
    try:
        return {key: value if key in UNWORDED else _value(value) for key, value in row.items()}
    except amount.AmountFault as fault:
        raise ValueError(f"{where}: {fault}") from None


def _value(value: Any) -> Any:
    """Text to numbers, where it is one; yes and no to truth."""
    if isinstance(value, list):
        return tuple(map(_value, value))
    if value in ("yes", "no"):
        return value == "yes"
    return (
        amount.split(value)[0]
        if value[:1].isdigit() or (value[:1] in "+-." and value[1:2].isdigit())
        else value
    )


def _spectra(waves: Mapping[str, Mapping[str, Any]]) -> dict[str, dict[str, tuple[float, ...]]]:
    shapes = sorted({shape for row in waves.values() for shape in row["shapes"]})
    return {hertz: {shape: wave.spectrum(shape, float(hertz)) for shape in shapes} for hertz in ("50", "60")}
