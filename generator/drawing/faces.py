"""Connectors with a face as one looks at them: mating face or solder side, either half,
held up by their mark."""

from __future__ import annotations

from collections.abc import Mapping

from generator.catalogue.light import all_light
from generator.catalogue.records import Connector
from generator.drawing.coax import coaxial, pinned
from generator.drawing.flat import flat, turned
from generator.drawing.layout import listed, named, paragraph, stack
from generator.drawing.roles import words
from generator.drawing.round import circular
from generator.drawing.scene import MARGIN, WIDE, Group, Scene
from generator.drawing.sides import places

VIEWS = {"face": "mating face", "solder": "seen from the solder side"}
DRAWN = {"circular": circular, "coaxial": coaxial, "rectangular": flat}
HELD = {  # as shown; a face that is turned a quarter says so
    "latch up": "Latch above.",
    "key up": "Key above.",
    "notch down": "Notch below.",
    "tab down": "Tab below.",
    "long row up": "Longer row above.",
}
TURNED = {
    "tab down": "Turned a quarter: the tab is at the left.",
    "long row up": "Turned a quarter: the longer row is at the right.",
}


def face(
    connector: Connector, half: str, view: str, roles: Mapping[str, str], name: str | None = None
) -> Scene:
    """The picture of one half from one side. `roles` maps contacts to role ids; empty
    for the bare connector."""
    subtitle = f"{half} half, {VIEWS[view]}".capitalize()
    block = DRAWN[connector.shape](connector, half, view, roles)
    said = paragraph(f"{looking(connector, half, view)} {held(connector)}".strip(), look="quiet")
    body = stack([block, said], gap=6)
    title = f"{name}: {connector.name}: {subtitle.lower()}" if name else f"{connector.name}: {subtitle}"
    desc = (
        f"{subtitle} of {connector.name}. {held(connector)} {_order(connector, half, view, roles)}".replace(
            "  ", " "
        )
    )
    return Scene(WIDE, round(body.height + MARGIN + 6), title, desc, (Group(body.items, 0, 6),))


def looking(connector: Connector, half: str, view: str) -> str:
    """Where one stands: `Male, looking at the pins.`"""
    if connector.looks.get("outline") == "wires":
        return "Looking along the cable, from behind." if view == "solder" else "Looking at the ends."
    if view == "solder":
        return f"{half.capitalize()}, the solder side."
    if all_light(connector):
        return f"{half.capitalize()}, looking {lit(connector, half)}."
    pins = pinned(connector, half) if connector.shape == "coaxial" else half == "male"
    contacts = (
        "contacts"
        if connector.looks.get("latch") == "twist"
        or (connector.looks.get("shell") == "plastic" and connector.outside.held == "tab down")
        else None
    )
    return (
        f"{half.capitalize()}, "
        f"looking {f'at the {contacts}' if contacts else 'at the pins' if pins else 'into the holes'}."
    )


def lit(connector: Connector, half: str) -> str:
    """What one looks at in a half that passes light: `at the ends of the fibres`."""
    one = len(connector.contacts) == 1
    if half == "male":
        return "at the end of the fibre" if one else "at the ends of the fibres"
    return "into the opening for the light" if one else "into the openings for the light"


def held(connector: Connector) -> str:
    """Which way up it is shown: `Latch above.`; empty where it has no way up."""
    return (TURNED if turned(connector) else HELD).get(
        connector.outside.held, "Turned a quarter." if turned(connector) else ""
    )


def _order(connector: Connector, half: str, view: str, roles: Mapping[str, str]) -> str:
    """The contacts in words, as they stand."""

    def told(contact: str) -> str:
        return named(contact, words(roles.get(contact)) or None)

    if connector.shape == "coaxial":
        centre, shell = connector.contacts[:2]
        return f"In the middle: {told(centre)}. Around it: {told(shell)}."
    spots = places(connector, half, view)
    if not turned(connector):
        in_order = sorted(spots, key=lambda contact: (round(spots[contact][0], 2), spots[contact][1]))
        return f"Contacts from left to right: {listed([told(contact) for contact in in_order])}."
    rows = sorted({round(y, 2) for _, y in spots.values()}, reverse=True)
    lines = [
        listed([told(c) for c in sorted(spots, key=lambda c: spots[c][0]) if round(spots[c][1], 2) == row])
        for row in rows
    ]
    return f"Contacts row by row from the left, each from above: {'; '.join(lines)}."
