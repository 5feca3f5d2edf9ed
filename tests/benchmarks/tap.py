"""From the last tap to the verdict, on a phone's window with the processor four times slower.

    python tests/benchmarks/tap.py build/site

From, Through and Into are tapped as a person would; the page itself takes the time from the last tap's event
to the moment the verdict stands in the document, to the frame that paints it, and to the whole answer with
its numbers. The same pairings every time, of all sizes. Milliseconds; run it alone.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright
from serving import serving

SLOWER = 4
ASKED = (
    ("mic-dynamic-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"),
    ("mic-condenser-p48-xlr", "xlr-f-to-xlr-m-3m", "mixer-mic-in-p48-xlr"),
    ("mic-dynamic-xlr", "", "mixer-mic-in-p48-xlr"),
    ("mixer-line-out-xlr", "xlr-f-to-35-trs-both-3-to-1", "camera-mic-in-35"),
    ("headphone-out-35", "phone-35-ts-to-35-ts", "phone-headset-jack-lrgm"),
    ("phone-headset-jack-lrgm", "two-35-trs-jacks-to-35-trrs", "headset-lrgm"),
    ("mic-ribbon-xlr", "xlr-f-to-xlr-m-t-power-from-phantom", "recorder-mic-in-t-power-reversed-xlr"),
    ("guitar-pickup-635", "phone-635-ts-to-xlr-m-3-to-1", "interface-mic-in-p48-combo"),
    ("mixer-line-out-xlr", "xlr-f-to-635-ts-3-to-1", "console-insert-635-tip-send"),
    ("party-line-supply-two-channel-xlr", "xlr-f-to-xlr-m-transformer-joined", "recorder-mic-in-t-power-xlr"),
)
WATCH = """() => {
    addEventListener("click", () => { window.tapped = performance.now(); }, true);
    new MutationObserver(() => {
        if (!document.querySelector(".rf-banner") || window.told) return;
        window.told = performance.now() - window.tapped;
        requestAnimationFrame(() => { window.seen = performance.now() - window.tapped; });
    }).observe(document.getElementById("rf-check"), { childList: true, subtree: true });
    new MutationObserver(() => {
        if (document.querySelector(".rf-banner[data-verdict]")) window.whole = window.whole || performance.now() - window.tapped;
    }).observe(document.getElementById("rf-check"), { childList: true, subtree: true });
}"""


def taken(browser, base: str, chain: tuple[str, str, str]) -> tuple[float, float, float, str]:
    """(until the verdict stands in the page, until it is on the screen, until all of the answer is
    there, ms; the verdict)."""
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, has_touch=True, service_workers="block"
    )
    page = context.new_page()
    context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    page.goto(f"{base}check/")
    page.evaluate(WATCH)
    for step in chain:
        option = page.locator(f'.rf-option[data-id="{step}"]').first
        option.wait_for(state="attached")
        option.evaluate("(one) => { const all = one.closest('details'); if (all) all.open = true; }")
        option.scroll_into_view_if_needed()
        page.wait_for_timeout(600)  # a person looks before tapping
        option.tap()
    page.wait_for_function("window.seen && window.whole")
    found = page.evaluate(
        "[window.told, window.seen, window.whole, document.querySelector('.rf-banner').dataset.verdict]"
    )
    context.close()
    return tuple(found)


def main() -> None:
    with serving(Path(sys.argv[1])) as base, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for chain in ASKED:
            told, seen, whole, verdict = taken(browser, base, chain)
            print(
                f"{told:6.0f} ms told {seen:6.0f} ms next frame {whole:6.0f} ms with its numbers   "
                f"{verdict:10} {' -> '.join(step or 'no lead' for step in chain)}",
                flush=True,
            )
        browser.close()


if __name__ == "__main__":
    main()
