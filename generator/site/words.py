"""How the pages say numbers, roles and grades: one place, so a page never shows a bare float or an id
where a word belongs."""

from __future__ import annotations

import math
import re

from markupsafe import Markup

from generator.catalogue.constants import Constant
from generator.drawing.layout import carried
from generator.engine.words import fixed, quantity

DBU = math.sqrt(0.6)  # volts rms at 0 dBu: 1 mW in 600 ohm

_WRITTEN = re.compile(r"(?<=[\d\s])([pnumkM]?)(ohm|F|H|V|A|W)\b")

GRADES = {
    "standard": "named in a standard",
    "published": "in a handbook, note or manual that was read",
    "common practice": "what the trade does; no single source",
    "derived": "worked out from other facts",
    "from memory": "known, but no page found yet",
}
ROLES = {"hot": "hot (+)", "cold": "cold (−)", "bias": "bias supply", "mic": "microphone"}


def amount(value: float | None, unit: str) -> str:
    """A value with its unit and a fitting prefix: `amount(6810, "ohm")` is `6.81 kΩ`; None is `not known`."""
    if value is None:
        return "not known"
    return quantity(value, unit) if math.isfinite(value) else "without end"


def level(volts: float | None) -> str:
    """A level in V rms, told the way levels are told: `0.0 dBu (775 mV)`."""
    if volts is None or volts <= 0:
        return amount(volts, "V")
    return f"{fixed(20 * math.log10(volts / DBU), 1)} dBu ({amount(volts, 'V')})"


def written(text: str) -> str:
    """What the author wrote, with the signs of print: `6.81 kohm +-20 %` becomes `6.81 kΩ ± 20 %`."""
    text = text.replace("+-", "± ").replace("±  ", "± ").replace("..", " to ")
    text = _WRITTEN.sub(lambda m: m[1].replace("u", "µ") + m[2].replace("ohm", "Ω"), text)
    return re.sub(r"(?<![\w])-(?=\d)", "−", text)


def role(node: str) -> str:
    """A contact's node as words: roles as the trade says them, an inner node without its instance."""
    return ROLES.get(node, carried(node))


def listed(items: list[str] | tuple[str, ...], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    items = list(items)
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {last} {items[-1]}"


def constant(row: Constant) -> Markup:
    """A number of the tables with its unit: `-60 dB`, `20, 1000, 20000 Hz`, `10<sup>-12</sup> S`."""
    values = row.value if isinstance(row.value, tuple) else (row.value,)
    return Markup(f"{', '.join(map(_plain, values))} {row.unit.replace('ohm', 'Ω')}".strip())


def _plain(value: float) -> str:
    power = math.floor(math.log10(abs(value))) if value else 0
    if -5 < power < 6:
        return f"{value:.12g}".replace("-", "−")
    times = f"{value / 10**power:g} × ".removeprefix("1 × ")
    return f"{times}10<sup>{str(power).replace('-', '−')}</sup>"
