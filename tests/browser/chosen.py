"""How a person chooses on the check, and turns what an answer can be switched by."""

import re

from answers import CHAINS, address

from generator.engine import judge

MIC, CAMERA = "mic-dynamic-xlr", "camera-mic-in-35"


def pick(page, catalogue, start, through, into):
    """Choose by the names a person reads; every choice is one tap (a click where
    there is no touch screen)."""
    leads = [catalogue.leads[lead].name for lead in through] or ["None"]
    touch = page.evaluate("navigator.maxTouchPoints > 0")

    def press(entry):
        entry.tap() if touch else entry.click()

    def choose(name):
        press(
            page.locator(
                ".rf-picker button", has=page.locator(".rf-option__name").get_by_text(name, exact=True)
            )
        )

    choose(catalogue.ports[start].name)
    choose(catalogue.ports[into].name)
    for name in leads:
        press(page.locator(".rf-step__open[data-step=through]"))
        choose(name)


def with_leads_open(visit, outlet):
    """The check with what one has chosen, and the list of leads open: for who has a certain lead."""
    page = visit(f"check/#from={outlet}")
    page.locator("[data-step=through]").tap()
    return page


# A setting kinder than the verdict, and one that keeps it: the same chain with its one switch on and off.
SWITCHED = CHAINS["dangerous"]
KINDER = f"{address(*SWITCHED)}&set=phantom:off"


def knob(page):
    return page.get_by_role("switch", name=re.compile("phantom 48 V", re.IGNORECASE))


def held(page, catalogue, position):
    """What Python finds with phantom in this position: the ids that its answer tells."""
    return {
        finding["id"]
        for finding in judge(catalogue, *SWITCHED).as_data()["findings"]
        if f"phantom 48 V {position}" in finding["when"] or "phantom" not in finding["when"]
    }


def options(page):
    return page.locator(".rf-picker__list .rf-option")


def fits_the_screen(page):
    return page.evaluate("document.documentElement.scrollWidth <= innerWidth")
