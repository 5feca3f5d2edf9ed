"""The sheets of a lead: test sheet, build sheet and ordering sheet, as data and as text to print."""

from __future__ import annotations

from math import inf
from typing import Any

from generator.catalogue.light import fibres, only_light
from generator.catalogue.records import Catalogue, Lead

from . import solder
from .readings import NONE, Reading, metered, readings, said, unseen
from .safety import cautions
from .specimen import SHELL, contact_of, end_of, on_bench
from .tables import table

BY_WIRE = 8  # contacts at an end above which silent pairs are tested joined together


def test_sheet(catalogue: Catalogue, lead: Lead) -> dict[str, Any]:
    """The readings a lead must pass, each with a box to tick: everything that shows something, then what
    must show nothing."""
    light = fibre_test(catalogue, lead)
    if only_light(lead, catalogue.connectors):
        return {"rows": [], "silent": [], "unseen": "", "flex": "", "light": light}
    found = readings(on_bench(catalogue, lead))
    shows = [
        {"between": reading.pair, "shows": said(reading), "limit": _limit(reading)}
        for reading in found
        if reading.low < inf or reading.beep == "once"
    ]
    silent = [reading for reading in found if reading.low == inf and reading.beep != "once"]
    return {
        "rows": shows,
        "silent": _silent(catalogue, lead, silent),
        "unseen": unseen(),
        "flex": "Flex the lead at both plugs while you read: nothing may change.",
        "light": light,
    }


def _limit(reading: Reading) -> str:
    """The bound a wire must keep, as the meter shows it."""
    return f"below {metered(reading.window[1])}" if reading.high < inf and reading.low < 5 else ""


def _silent(catalogue: Catalogue, lead: Lead, silent: list[Reading]) -> list[dict[str, str]]:
    """What must read nothing, an end at a time; ends with many contacts are told as a rule."""
    rows = []
    for end in lead.ends.values():
        own = [r for r in silent if end_of(r.a) == end_of(r.b) == end.id]
        plain = [r.pair for r in own if SHELL not in (contact_of(r.a), contact_of(r.b))]
        shells = [r.pair for r in own if r.pair not in plain]
        if plain:
            many = len(catalogue.connectors[end.connector].contacts) > BY_WIRE
            rows.append(
                {
                    "between": f"every contact of {end.id} to every other" if many else ", ".join(plain),
                    "shows": NONE,
                }
            )
        if shells:
            rows.append(
                {
                    "between": f"the metal shell of {end.id} to each of its contacts",
                    "shows": f"{NONE} in a portable lead",
                }
            )
    across = [r for r in silent if end_of(r.a) != end_of(r.b)]
    if across:
        rows.append({"between": "any contact to any other end's, except those above", "shows": NONE})
    return rows


def build_sheet(catalogue: Catalogue, lead: Lead) -> dict[str, Any]:
    """Everything it takes to make a lead."""
    if fibres(lead, catalogue.connectors):
        return bought_sheet(catalogue, lead)
    making, inside = table("making"), solder.components(lead)
    return {
        "lead": lead.id,
        "name": lead.name,
        "cautions": cautions(lead, "soldering", "measuring"),
        "buy": _buy(catalogue, lead),
        "components": inside,
        "matching": list(solder.matching(lead)),
        "strip": (
            [{"end": end.id, **_strip(end.connector)} for end in lead.ends.values()] if lead.cable else []
        ),
        "solder": solder.tables(catalogue, lead),
        "steps": (
            [*making["steps"]["do"], *(making["parts"]["do"] if inside else [])]
            if lead.cable
            else [
                *making["parts"]["do"][:2],
                *making["steps"]["do"][6:9],
                making["parts"]["do"][2],
                *making["steps"]["do"][-2:],
            ]
        ),
        "shell": making["shell"]["says"] if _shelled(catalogue, lead) else "",
        "colours": making["colours"]["says"] if lead.cable else "",
        "sleeve": (
            f"Sleeves reach {making['sleeve']['overlap']} over the wire's insulation, or two of its "
            "diameters where that is more."
        ),
        "label": label(lead),
        "test": test_sheet(catalogue, lead),
    }


def bought_sheet(catalogue: Catalogue, lead: Lead) -> dict[str, Any]:
    """The same of a lead with fibres, which nobody makes at a bench."""
    return {
        "lead": lead.id,
        "name": lead.name,
        "cautions": cautions(lead, "light", *_metered(catalogue, lead)),
        "buy": [
            {
                "what": f"{lead.name}, made and tested",
                "for": cable(lead) if lead.cable else lead.form,
                "count": 1,
            }
        ],
        **{key: [] for key in ("components", "matching", "strip", "solder")},
        **dict.fromkeys(("shell", "colours", "sleeve"), ""),
        "steps": table("making")["light"]["made"],
        "label": label(lead),
        "test": test_sheet(catalogue, lead),
    }


def _metered(catalogue: Catalogue, lead: Lead) -> list[str]:
    """What is done to a lead with fibres beside looking for light: its wires, if any, are measured."""
    return [] if only_light(lead, catalogue.connectors) else ["measuring"]


def fibre_test(catalogue: Catalogue, lead: Lead) -> list[str]:
    """How the fibres of a lead are tested, and where each one goes; nothing for a lead without."""
    found = fibres(lead, catalogue.connectors)
    if not found:
        return []
    return [*table("making")["light"]["test"], *(f"{' to '.join(join.nodes)}: light" for join in found)]


def _shelled(catalogue: Catalogue, lead: Lead) -> bool:
    return any(contact_of(terminal) == SHELL for terminal in on_bench(catalogue, lead).terminals)


def _strip(connector: str) -> dict[str, str]:
    rows = table("making")["strip"]
    row = rows.get(connector, rows["default"])
    return {
        **{key: row[key] for key in ("sheath", "core", "screen")},
        "evidence": "published" if "cite" in row else "from memory",
        "other": row.get("other", ""),
    }


def _buy(catalogue: Catalogue, lead: Lead) -> list[dict[str, Any]]:
    """Connectors by class, the cable by class and length."""
    found = [
        {
            "what": f"{catalogue.connectors[end.connector].name}, {end.half}, for cable",
            "for": end.id,
            "count": 1,
        }
        for end in lead.ends.values()
    ]
    if lead.cable:
        found.append({"what": cable(lead), "for": "cable", "count": f"{lead.length:g} m"})
    return found


def cable(lead: Lead) -> str:
    """The class of cable to ask for; a cable nobody has put into words goes by its id."""
    return table("making")["cables"].get(lead.cable, lead.cable.replace("-", " "))


def label(lead: Lead) -> str:
    """What to write on it."""
    return f"{lead.name} ({lead.id})"


def ordering_sheet(catalogue: Catalogue, lead: Lead, test: dict[str, Any] | None = None) -> str:
    """The lead for a shop or a maker, so that it cannot be wired otherwise."""
    test = test or test_sheet(catalogue, lead)
    ends = [
        f"End {end.id}: {catalogue.connectors[end.connector].name}, {end.half} ({end.label})"
        for end in lead.ends.values()
    ]
    contacts = [
        f"  {t['end']}.{row['contact']}: {'; '.join(row['solder'])}"
        for t in solder.tables(catalogue, lead)
        for row in t["contacts"]
    ]
    made = [
        (
            f"  {part['id']}: {part['kind']} {part['says']}, between {part['between'][0]} and "
            f"{part['between'][1]}"
        )
        for part in solder.components(lead)
    ]
    screens = [join.id for join in lead.joins if join.screen]
    lines = [
        f"Please make: {lead.name}",
        *ends,
        (f"Cable: {cable(lead)}, {lead.length:g} m" if lead.cable else "No cable: an adapter in one housing"),
        *([] if only_light(lead, catalogue.connectors) else [_screened(screens)]),
        "Every contact:",
        *contacts,
        *(["Parts inside:", *made] if made else []),
        *([f"Shell: {table('making')['shell']['says']}"] if _shelled(catalogue, lead) else []),
        "It must pass, both ends unplugged, flexed at both plugs:" if test["rows"] else "It must have:",
        *(f"  {row['between']}: {row['shows']}" for row in test["rows"]),
        *(f"  {row['between']}: {row['shows']}" for row in test["silent"]),
        *([f"  {table('making')['light']['ask']}"] if test["light"] else []),
    ]
    return "\n".join(lines)


def _screened(screens: list[str]) -> str:
    return (
        f"Screen: {', '.join(screens)}, joined as in the table and nowhere else"
        if screens
        else "Screen: none"
    )


def text(sheet: dict[str, Any], order: str) -> str:
    """The build sheet for a terminal, then the ordering sheet."""
    lines = [sheet["name"], *(f"  Take care: {caution}" for caution in sheet["cautions"]), "Buy:"]
    lines += [f"  {row['count']} × {row['what']} ({row['for']})" for row in sheet["buy"]]
    lines += [
        (
            f"  {part['kind']} {part['id']}: {part['says']}, between {part['between'][0]} and "
            f"{part['between'][1]}"
        )
        for part in sheet["components"]
    ]
    lines += [f"  {words}" for words in sheet["matching"]]
    if sheet["strip"]:
        lines.append("Strip:")
        lines += [
            f"  {row['end']}: sheath {row['sheath']}, core {row['core']}, screen {row['screen']} "
            f"({row['evidence']}){'; also ' + row['other'] if row['other'] else ''}"
            for row in sheet["strip"]
        ]
    for one in sheet["solder"]:
        lines += [
            f"Solder, end {one['end']}: {one['label']}",
            *(f"  {row['contact']}: {'; '.join(row['solder'])}" for row in one["contacts"]),
        ]
    lines += [f"  {sheet[key]}" for key in ("shell", "colours", "sleeve") if sheet[key]]
    lines += [
        "Order of work:",
        *(f"  {i}. {step}" for i, step in enumerate(sheet["steps"], 1)),
        f"Label: {sheet['label']}",
        "Test:",
    ]
    lines += [
        f"  [ ] {row['between']}: {row['shows']}"
        for row in (*sheet["test"]["rows"], *sheet["test"]["silent"])
    ]
    lines += [f"  [ ] {words}" for words in sheet["test"]["light"]]
    return "\n".join(
        [
            *lines,
            *(f"  {sheet['test'][key]}" for key in ("flex", "unseen") if sheet["test"][key]),
            "",
            "To order it instead:",
            order,
        ]
    )
