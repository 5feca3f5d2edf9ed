"""What a contact carries, as a kind with a colour and a line pattern of its own, so that it is told by
either; the word stands beside it."""

from __future__ import annotations

from generator.drawing.layout import carried

# told apart in this order: the first that matches; whole parts of a role's name
_KINDS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("unknown", ("unknown", "either", "not")),
    ("ground", ("common", "screen", "ground", "return")),
    ("supply", ("supply", "bias", "charge", "power", "load")),
    ("cold", ("cold", "minus", "negative", "counter")),
    (
        "data",
        (
            "data",
            "timecode",
            "midi",
            "video",
            "transmit",
            "receive",
            "sbu",
            "detect",
            "select",
            "shutter",
            "focus",
            "service",
            "source",
            "sink",
            "pair",
        ),
    ),
    ("second", ("right", "side", "phones", "low")),
    ("other", ("mic", "spare")),
)
NAMES = ("hot", *(name for name, _ in _KINDS), "nothing")
WORDS = {"nothing": "nothing"}


def kind(role: str | None) -> str:
    """The kind of a role's id: one of NAMES."""
    if not role:
        return "nothing"
    parts = set(role.split(".")[-1].split("-"))
    return next((name for name, telling in _KINDS if parts & set(telling)), "hot")


def words(role: str | None) -> str:
    """A role as one reads it: `timecode out`; empty where nothing is carried."""
    return carried(role) if role else ""


def spoken(contact: str, role: str | None) -> str:
    """`contact 2 (hot)`, as the picture is told to those who hear it."""
    return f"contact {contact} ({words(role)})" if role else f"contact {contact}"
