"""A phone with an edition of a small site on it while another is published: what it keeps and answers."""

import re

import small
from conftest import becomes
from playwright.sync_api import Error, expect

from generator.site import offline

CHECK = f"check/#from={small.FROM}&through={small.THROUGH}&into={small.INTO}"
KEPT = "Kept on this device: the check works without a network."
NEWER, TAKEN = "A newer version is here.", "A newer version has taken over."


def again(page):
    """Loads the page anew; a newer version that takes over at this moment does it first, and the
    browser then drops ours."""
    try:
        page.reload()
    except Error as dropped:
        if "ERR_ABORTED" not in dropped.message:
            raise
        page.wait_for_load_state()


def edition(folder):
    return re.search(r'name="edition" content="(\w+)"', (folder / "check/index.html").read_text())[1]


def keep(page):
    """Edition A is on the phone, and the page is in somebody's hand: one just opened, which nobody has
    touched, would change by itself."""
    expect(page.locator("#rf-offline")).to_contain_text(KEPT)
    page.keyboard.press("Shift")
    becomes(page, "navigator.serviceWorker.controller !== null")


def one_version(page):
    """The edition everything on a page that judges is of: the page, its scripts, and the data by the name in
    them. A page that a newer version overtook while it was loading loads itself anew."""
    own = "document.querySelector('meta[name=edition]').content"
    becomes(
        page,
        "Boolean(Ringfence.editions.data) && Object.values(Ringfence.editions).every((each) => each === "
        f"{own})",
    )
    return page.evaluate(own)


def answered(page):
    """The verdict shown for CHECK, with the name of the inlet it was worked out for."""
    page.goto("about:blank")
    page.goto(CHECK)
    banner = page.locator(".rf-answer:not([aria-busy]) .rf-banner")
    expect(banner).to_be_visible()
    return banner.get_attribute("data-verdict") or banner.inner_text()


def updated(page):
    """The browser looks for a newer version and has come to an end with it."""
    page.evaluate("""navigator.serviceWorker.getRegistration().then((one) => one.update().catch(() =>
        null).then(async () => {
        const coming = one.installing;
        if (coming) await new Promise((done) => coming.addEventListener("statechange", done));
        return 0; }))""")


def heals(phone, built, name="B"):
    """With the server whole, a few visits bring the newest edition, and it answers without a network."""
    page, last = phone.open(), None
    for _ in range(12):
        try:
            becomes(
                page, "navigator.serviceWorker.getRegistration().then((one) => Boolean(one && one.active))"
            )
            updated(page)
            again(page)
            expect(page.locator("#rf-check")).to_be_visible()
            page.wait_for_load_state("load")
            if page.get_by_text("A part of this page did not load").count():
                continue  # the version changed while it was loading: it says so, and the next visit is whole
            # a visit lasts some seconds; a newer version takes over once the page is at rest
            for _ in range(8):
                last = one_version(page), stored(page)
                if last == (edition(built[name]), version(built[name])):
                    return page
                page.wait_for_timeout(300)
        except Error as left:  # the newer version has just taken over, and the page was loaded anew by itself
            if "context was destroyed" not in left.message:
                raise
    raise AssertionError(f"edition and store still {last}")


def version(folder):
    return offline.read((folder / "offline-list.js").read_text())["version"]


def stored(page):
    """The version whose files are all in the store, as their digests say; None where none is whole."""
    return page.evaluate("""async () => {
        const list = await (await fetch("/offline-list.js", { cache: "no-store" })).text();
        const { version, files, pack } = JSON.parse(list.replace("self.OFFLINE = ", "").replace(/;\\s*$/,
          ""));
        const cache = await caches.open("ringfence-" + version);
        for (const [path, digest] of Object.entries({ ...files, ...pack })) {
            const held = await cache.match("/" + path);
            if (!held) return null;
            const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", await held.arrayBuffer()));
            if (btoa(String.fromCharCode(...sum)) !== digest) return null;
        }
        return version; }""")
