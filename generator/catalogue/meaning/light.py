"""Light goes from light to light: through contacts, joins, cables and circuits that all say so. What carries
current is never told to be safe because it was taken for light, and no fibre is given to a meter."""

from __future__ import annotations

from ..context import Context
from ..kinds_circuits import PARTS
from ..light import DARK, is_fibre, lit_nodes
from ..nodes import Map, Unusable
from . import networks

CHASSIS = "chassis"


def check_contacts(id: str, tree: Map, context: Context) -> None:
    """Of a connector: what passes light is a contact."""
    contacts = tree.whole("contacts").texts()
    for contact in tree["light"] if "light" in tree else ():
        if contact.text not in contacts:
            message = f"'{contact.text}' is no contact of '{id}', so no light passes it."
            context.problems.add(contact.place, "unknown-contact", message, tree.keys["contacts"])


def check_cable(id: str, tree: Map, context: Context) -> None:
    """Of a cable: copper has a resistance and bears a current; a cable of fibres alone has neither."""
    for key, other in (("core", "current"), ("current", "core")):
        if key not in tree and (tree.text("light") != "yes" or other in tree):
            message = f"this cable lacks the key '{key}'; only one of fibres alone, `light: yes`, has none."
            context.problems.add(tree.place, "missing-key", message)


def check_lead(id: str, tree: Map, context: Context) -> None:
    """Of a lead: a join is fibre at both ends or at neither, and its cable has what the join needs."""
    lit = lit_nodes(
        {
            name: context.tree("connectors", end["connector"]).texts("light")
            for name, end in tree.whole("ends").items()
        }
    )
    cable = context.tree("cables", tree["cable"]) if "cable" in tree else None
    for name, join in tree.map("joins").items():
        wired = [node for node in join if node.text not in lit]
        if not is_fibre(join.texts(), lit):
            if cable and cable.text("light") == "yes" and "core" not in cable:
                message = f"'{name}' is a wire, but cable '{tree['cable'].text}' has fibres only."
                context.problems.add(join.place, "no-fibre", message, cable.place)
        elif wired:
            message = f"'{name}' joins light to '{wired[0].text}', which passes none."
            context.problems.add(wired[0].place, "light-and-wire", message)
        elif cable and cable.text("light") != "yes":
            message = f"'{name}' is a fibre, but cable '{tree['cable'].text}' does not say `light: yes`."
            context.problems.add(join.place, "no-fibre", message, cable.place)
    for pair in networks.pairs_between(tree, "parts", "limits"):
        for node in pair:
            if node.text in lit:
                message = f"'{node.text}' passes light; no part of a lead stands there."
                context.problems.add(node.place, "light-and-wire", message)


def check_port(id: str, tree: Map, context: Context) -> None:
    """Of a port: what passes light leads to what is measured against the dark, and nothing else does."""
    passing = context.tree("connectors", tree["connector"]).texts("light")
    carries = context.tree("assignments", tree["assignment"]).whole("carries")
    lit = {role.text for contact, role in carries.items() if contact in passing}
    for _, instance in tree["circuit"].items():
        template, place = context.tree("circuits", instance["use"]), instance["use"].place
        if not template.map("parts").sound:
            raise Unusable(id)
        pieces = networks.joined(template, PARTS)
        dark = pieces.get(DARK)
        for role in template.whole("roles").texts():
            target = instance.map("roles").text(role, role)
            if (pieces.get(role, role) == dark) != (target in lit):
                what = "passes" if target in lit else "does not pass"
                message = f"'{target}' {what} light; circuit '{instance['use'].text}' has it otherwise."
                context.problems.add(place, "light-and-wire", message, template.place)
        if dark and pieces.get(CHASSIS) == dark:
            message = f"circuit '{instance['use'].text}' joins the dark to the chassis."
            context.problems.add(place, "light-and-wire", message, template.place)
