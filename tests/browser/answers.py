"""What the check shall show for a connection, from the engine in Python; and what a page
of the check does show."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from generator.catalogue import Catalogue
from generator.engine import judge

# One connection of every verdict: of each, a person may well hold these three things in the hand.
CHAINS = {
    "safe": ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-mic-in-p48-xlr"),
    "lossy": ("mic-dynamic-xlr", ("xlr-f-to-xlr-m-crossed-3m",), "mixer-mic-in-p48-xlr"),
    "no signal": ("mic-condenser-p48-xlr", ("xlr-f-to-xlr-m-3m",), "mixer-line-in-xlr"),
    "dangerous": ("computer-headphone-out-35", ("phone-35-trs-to-xlr-m-tip-2",), "mixer-mic-in-p48-xlr"),
}
POWER = "Power arrives the right way round, there is enough of it, and no limit is passed."
NOTHING_AGAINST = (
    "The signal arrives on every channel, no limit is passed, and nothing that was asked for is lost."
)


@dataclass(frozen=True)
class Shown:
    """The answer as a person sees it. `settings`: (words, verdict) a line."""

    verdict: str
    says: str
    settings: list[tuple[str, str]]


def address(start: str, through: tuple[str, ...] | list[str], into: str) -> str:
    """The published address of an answer."""
    return f"check/#from={quote(start)}&through={','.join(map(quote, through))}&into={quote(into)}"


def expected(catalogue: Catalogue, start: str, through: tuple[str, ...] | list[str], into: str) -> Shown:
    """What Python judges, in the words of the page."""
    judged = judge(catalogue, start, tuple(through), into).as_data()
    supplies = {supply.id: supply.name for port in (start, into) for supply in catalogue.ports[port].supplies}

    # another inlet's supply is told by where it is: "phantom at the second inlet"
    def named(supply: str) -> str:
        own, *where = supply.partition(" at the ")
        return supplies.get(own, own) + "".join(where)

    def words(positions: dict[str, str]) -> str:
        *most, last = [f"{named(supply)} {position}" for supply, position in positions.items()] or [
            "as it is"
        ]
        text = f"{', '.join(most)} and {last}" if most else last
        return text[0].upper() + text[1:]

    lines = [(words(setting["supplies"]), setting["verdict"]) for setting in judged["settings"]]
    lines.append(("While plugging, the worst moment", judged["plugging"]))
    deciding = [finding["says"] for finding in judged["findings"] if finding["severity"] == judged["verdict"]]
    power = any(source.kind == "power" for source in catalogue.ports[start].sources)
    says = deciding[0] if deciding else POWER if power and judged["verdict"] == "safe" else NOTHING_AGAINST
    return Shown(judged["verdict"], says[0].upper() + says[1:].removesuffix(".") + ".", lines)


def shown(page) -> Shown:
    """What stands on an open page of the check. Waits for an answer."""
    banner = page.locator(".rf-answer:not([aria-busy]) .rf-banner[data-verdict]")
    verdict, says = banner.locator("h2").inner_text().lower(), banner.locator(".rf-banner__says").inner_text()
    lines = page.locator(".rf-settings tr").all()  # folded, until one asks for them
    return Shown(
        verdict,
        says,
        [
            (line.locator("th").text_content(), line.locator("td .rf-verdict").text_content())
            for line in lines
        ],
    )


def listed(page):
    """The entries of the list one chooses from, once it has stopped growing."""
    page.locator(".rf-picker__list:not([aria-busy])").wait_for()
    return page.locator(".rf-picker__list .rf-option")
