"""How long the page's main thread stands still while a verdict is worked out, on a phone's window with the
processor four times slower.

    python tests/benchmarks/longest_task.py build/site

The check is open and has answered once, so that everything is loaded. Then another question is put, or a
number typed into its open field, and all of the answer is waited for. Told are the longest task of the main
thread (Long Tasks; "none" is under 50 ms) and the time until the answer stands, both in ms. Run it alone.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright
from serving import serving

SLOWER = 4
AFTER = 2500  # ms; hum and own fields come after the verdict
FIRST = "from=mic-dynamic-xlr&through=xlr-f-to-xlr-m-3m&into=mixer-mic-in-xlr"
NUMBER = "from=mic-electret-battery-xlr&through=xlr-f-to-xlr-m-3m&into=mixer-mic-in-p48-xlr"
ASKED = {
    "plain": "from=mic-condenser-p48-xlr&through=xlr-f-to-xlr-m-3m&into=mixer-mic-in-p48-xlr",
    "headset jack": "from=wireless-receiver-out-35&through=phone-35-trrs-to-35-trrs&into=phone-headset-jack-lrgm",
    "splitter": "from=mixer-stereo-line-out-xlr-5&through=xlr-5-f-to-two-xlr-m&into=camera-mic-in-p48-xlr",
    "D-sub": "from=mixer-line-out-impedance-balanced-xlr&through=two-xlr-f-to-d-sub-25&into=mixer-line-in-d-sub-25",
}
TYPED = {"own number": "63", "own number, dangerous": "16"}
ASK = "from.main.highest-volts-at-output"
WATCH = """() => {
    window.tasks = [];
    new PerformanceObserver((list) => window.tasks.push(...list.getEntries().map(({ startTime, duration }) => [startTime, duration]))).observe({ type: "longtask" });
}"""
WHOLE = ".rf-banner[data-verdict]"


def opened(browser, base: str, question: str, field: str = ""):
    page = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block").new_page()
    page.set_default_timeout(300_000)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(f"{base}check/#{question}")
    page.locator(WHOLE).wait_for()
    page.wait_for_timeout(AFTER)
    if field:
        page.locator(f'[data-ask="{field}"]').click()
        page.wait_for_timeout(AFTER)
    page.evaluate(WATCH)
    return page


def told(page, act) -> tuple[float, float]:
    """(longest task, until the answer stands) of what `act` sets off."""
    page.evaluate(
        """(whole) => { window.asked = performance.now(); window.stood = 0; document.querySelector(whole).dataset.old = "";
        new MutationObserver(() => { if (!window.stood && document.querySelector(`${whole}:not([data-old])`)) window.stood = performance.now(); })
            .observe(document.getElementById("rf-check"), { childList: true, subtree: true }); }""",
        WHOLE,
    )
    act()
    page.locator(f"{WHOLE}:not([data-old])").wait_for()
    page.wait_for_timeout(AFTER)
    longest, stood = page.evaluate(
        "[Math.max(0, ...window.tasks.filter(([start, long]) => start + long > window.asked).map(([, "
        "long]) => long)), window.stood - window.asked]"
    )
    page.context.close()
    return longest, stood


def typed(page, number: str) -> None:
    page.evaluate(
        """([ask, number]) => {
        const item = document.querySelector(`[data-own="${ask}"]`); item.querySelector("input").value = number; item.querySelector("[data-key=judge]").click(); }""",
        [ASK, number],
    )


def main() -> None:
    with serving(Path(sys.argv[1])) as base, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium") or shutil.which("chromium-headless-shell"),
            args=["--no-sandbox"],
        )
        rows = [
            (
                name,
                FIRST,
                "",
                lambda page, question=question: page.evaluate(
                    "(hash) => { location.hash = hash; }", question
                ),
            )
            for name, question in ASKED.items()
        ]
        rows += [
            (name, NUMBER, ASK, lambda page, number=number: typed(page, number))
            for name, number in TYPED.items()
        ]
        for name, before, field, act in rows:
            page = opened(browser, base, before, field)
            longest, stood = told(page, lambda: act(page))
            print(f"{longest:8.0f} ms longest task {stood:8.0f} ms until the answer   {name}", flush=True)
        browser.close()


if __name__ == "__main__":
    main()
