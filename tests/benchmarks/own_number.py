"""How long it takes from a typed number to its verdict, on a phone's window, the processor four times slower.

    python tests/benchmarks/own_number.py build/site

The check is open and has answered. Then one number after the other is typed into an open field and judged,
each another one; told are medians in ms: of the page, slowed, from the tap to the question to the worker
(`asked`), the way there and back (`sent`), and from the answer to verdict and first sentence (`shown`); of
the worker, which the browser does not slow, four times what it takes by its own clock; their sum, `verdict`;
and `whole`, all of the answer with all below it, its worker counted likewise. Run it alone: what waits for a
processor is counted too.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path
from statistics import median

from playwright.sync_api import sync_playwright
from serving import serving

SLOWER = 4
TIMES = 9
LATER = 3000  # ms; hum and own fields come after the verdict
MIC = "from=mic-electret-battery-xlr&through=xlr-f-to-xlr-m-3m&into=mixer-mic-in-p48-xlr"
PHANTOM = "from=mic-condenser-p48-xlr&through=xlr-f-to-xlr-m-3m&into=mixer-mic-in-p48-xlr"
HEADSET = "from=wireless-receiver-out-35&through=phone-35-trrs-to-35-trrs&into=phone-headset-jack-lrgm"
SPLITTER = "from=mixer-stereo-line-out-xlr-5&through=xlr-5-f-to-two-xlr-m&into=camera-mic-in-p48-xlr"
D_SUB = "from=mixer-line-out-impedance-balanced-xlr&through=two-xlr-f-to-d-sub-25&into=mixer-line-in-d-sub-25"
# what it is, the question, the field, the first number typed and how far apart they are
TYPED = (
    ("a rating", MIC, "from.main.highest-volts-at-output", 60, 1),
    ("a rating, dangerous", MIC, "from.main.highest-volts-at-output", 10, 0.1),
    ("a level", MIC, "into.main.maximum-input-level", 1, 0.1),
    ("a need", PHANTOM, "from.main.lowest-supply", 20, 0.1),
    ("a resistance", MIC, "from.main.output-impedance", 100, 1),
    ("a current", PHANTOM, "from.main.current-drawn", 3, 0.1),
    ("a rating, headset jack", HEADSET, "from.left.highest-volts-at-output", 10, 1),
    ("a resistance, headset jack", HEADSET, "from.left.output-impedance", 100, 1),
    ("a rating, splitter", SPLITTER, "from.left.highest-volts-at-output", 10, 1),
    ("a resistance, splitter", SPLITTER, "from.left.output-impedance", 100, 1),
    ("a level, D-sub", D_SUB, "into.ch1.maximum-input-level", 1, 0.1),
    ("a resistance, D-sub", D_SUB, "from.main.output-impedance", 100, 1),
)
CLOCKED = """
{ const hears = self.onmessage, says = self.postMessage.bind(self);
  let begun = 0;
  self.onmessage = (event) => { begun = performance.now(); hears(event); };
  self.postMessage = (told) => says({ ...told, took: performance.now() - begun }); }
"""
WATCHED = """(() => {
  const Plain = window.Worker;
  window.Worker = function (...about) {
    const worker = new Plain(...about), post = worker.postMessage.bind(worker);
    worker.postMessage = (message) => {
      if (message.kind === "judge") window.posted ??= performance.now();
      post(message);
    };
    worker.addEventListener("message", ({ data }) => {
      if (!data.done || window.heard !== undefined) return;
      [window.heard, window.took] = [performance.now(), data.took];
    });
    return worker;
  };
})()"""
OPEN = """(ask) => {
  const item = document.querySelector(`[data-own="${ask}"]`), open = item.querySelector("[data-ask]");
  item.closest("details")?.setAttribute("open", "");
  if (open.getAttribute("aria-expanded") === "false") open.click(); }"""
TYPE = """([ask, number]) => new Promise((done) => {
  const item = document.querySelector(`[data-own="${ask}"]`), before = document.querySelector(".rf-answer"),
    now = () => performance.now() - begun;
  let begun = 0, stood = 0;
  const seen = new MutationObserver(() => {
    const answer = document.querySelector(".rf-answer");
    if (answer === before || !answer?.querySelector("[data-verdict]")) return;
    stood ||= now();
    if (answer.hasAttribute("aria-busy") || !answer.querySelector("section.rf-own")) return;
    seen.disconnect();
    const { posted, heard, took } = window;
    done([posted - begun, heard - posted, stood - (heard - begun), now(), took]);
  });
  seen.observe(document.getElementById("rf-check"),
    { childList: true, subtree: true, attributes: true, attributeFilter: ["aria-busy"] });
  item.querySelector("input").value = number;
  window.posted = window.heard = undefined;
  begun = performance.now();
  item.querySelector("[data-key=judge]").click();
})"""


def told(page, ask: str, first: float, step: float) -> list[float]:
    rows = []
    for number in range(TIMES):
        page.evaluate(OPEN, ask)
        page.wait_for_timeout(300)
        asked, away, shown, whole, worker = page.evaluate(TYPE, [ask, f"{first + number * step:.4g}"])
        more = (SLOWER - 1) * worker
        rows.append((asked, away - worker, worker * SLOWER, shown, asked + away + shown + more, whole + more))
        page.wait_for_timeout(LATER // 3)
    return [median(column) for column in zip(*rows)]


def clocked(route) -> None:
    """The worker's script, that it tells how long it took as well."""
    answer = route.fetch()
    route.fulfill(response=answer, body=answer.text() + CLOCKED)


def main() -> None:
    with serving(Path(sys.argv[1])) as base, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=shutil.which("chromium") or shutil.which("chromium-headless-shell"),
            args=["--no-sandbox"],
        )
        print("    asked     sent   worker    shown  verdict    whole")
        for name, question, ask, first, step in TYPED:
            context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
            page = context.new_page()
            page.set_default_timeout(300_000)
            page.add_init_script(WATCHED)
            page.route("**/worker.js", clocked)
            context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
            page.goto(f"{base}check/#{question}")
            page.locator("section.rf-own").wait_for()
            page.wait_for_timeout(LATER)
            print(
                "".join(f"{ms:9.0f}" for ms in told(page, ask, first, step)), f"  {name}", sep="", flush=True
            )
            context.close()
        browser.close()


if __name__ == "__main__":
    main()
