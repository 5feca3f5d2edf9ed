"""What the nets of a working are called in a picture: in words a person with a meter knows, "hot,
contact 2" and "ground"."""

from __future__ import annotations

import re
from dataclasses import replace

from generator.engine.working import Net, Working

CONTACT = re.compile(r" (\S+(?: and \S+)*) \((.+)\)$")  # the end of a node's name: `Mixer line input 2 (hot)`


def in_words(working: Working) -> Working:
    """The working with its nets renamed, everywhere they are named. Names stay apart: words that two nets
    would share are left."""
    said = {net.name: spoken(net) for net in working.nets}
    words = {name: one if list(said.values()).count(one) == 1 else name for name, one in said.items()}
    equation = working.equation and replace(
        working.equation,
        net=words.get(working.equation.net, working.equation.net),
        says=_renamed(working.equation.says, working.equation.net, words),
    )
    return replace(
        working,
        nets=tuple(replace(net, name=words[net.name]) for net in working.nets),
        parts=tuple(replace(p, a=words.get(p.a, p.a), b=words.get(p.b, p.b)) for p in working.parts),
        equation=equation,
    )


def spoken(net: Net) -> str:
    """`hot, contact 2`, `ground and cold, contact 3`; a net inside a device keeps its name."""
    name, comma, rest = net.name.partition(", ")
    return " and ".join(_one(part, net) for part in name.split(" = ")) + comma + rest


def _one(name: str, net: Net) -> str:
    """A name of its own, with the contact where all devices that carry it have it on the same one."""
    if name == "chassis":
        return "ground"
    contacts = {found[1] for node in net.nodes if (found := CONTACT.search(node)) and found[2] == name}
    if len(contacts) != 1:
        return name
    contact = contacts.pop()
    if " and " in contact:
        return f"{name}, contacts {contact}"
    return (
        f"{name}, contact {contact}"
        if contact[0].isdigit()
        else name
        if contact == name
        else f"{name}, {contact}"
    )


def _renamed(says: str, net: str, words: dict[str, str]) -> str:
    """The net's name is the first thing a sum names."""
    return re.sub(rf"(?<= at ){re.escape(net)}(?= sum|, so)", lambda _: words.get(net, net), says, count=1)
