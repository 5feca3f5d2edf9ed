"""What is kept on a phone is of one version, whole, and heals: half a deploy, a store that is gone in part or
altogether, no room, a browser that cannot unpack, a server that fails, several pages open. After each the
site answers as the newest version does once the server is whole."""

import json
import re

import chromium
import once
import pytest
import small
from conftest import PATIENCE, becomes
from playwright.sync_api import Error, expect, sync_playwright
from served import served

from generator.site import offline

pytestmark = pytest.mark.browser

CHECK = f"check/#from={small.FROM}&through={small.THROUGH}&into={small.INTO}"
KEPT = "Kept on this device: the check works without a network."
NEWER, TAKEN = "A newer version is here.", "A newer version has taken over."
WHY = "Transformers were taken to block direct current that they do not."


@pytest.fixture(scope="session")
def built(catalogue, tmp_path_factory):
    """The folders of edition A and edition B."""
    if chromium.found() is None:
        pytest.skip("chromium not installed")
    return {name: small.edition(catalogue, once.common(tmp_path_factory), name) for name in "AB"}


@pytest.fixture(scope="module")
def browser():
    if chromium.found() is None:
        pytest.skip("chromium not installed")
    with sync_playwright() as playwright:
        launched = chromium.launched(playwright)
        yield launched
        launched.close()


@pytest.fixture
def host(built):
    """A server of edition A; `host.publish("B")` puts B in its place, but for the files named as late."""
    with served(built["A"]) as site:

        def publish(name, late=()):
            site.folder = built[name]
            site.replaced = {
                path.removesuffix("index.html"): (built["A"] / path).read_bytes() for path in late
            }

        site.publish = publish
        yield site


@pytest.fixture
def phone(browser, host):
    """A fresh profile; `phone.open(address)` opens a page of it."""
    context = browser.new_context(
        viewport={"width": 390, "height": 844}, base_url=host.base, service_workers="allow"
    )
    context.set_default_timeout(PATIENCE)
    context.thrown = []

    def opened(address="check/"):
        page = context.new_page()
        page.on("pageerror", lambda error: context.thrown.append(str(error)))
        page.goto(address)
        return page

    context.open = opened
    yield context
    context.close()
    assert context.thrown == []


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
    page.evaluate("""navigator.serviceWorker.getRegistration().then((one) => one.update().catch(() => null).then(async () => {
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
        const { version, files, pack } = JSON.parse(list.replace("self.OFFLINE = ", "").replace(/;\\s*$/, ""));
        const cache = await caches.open("ringfence-" + version);
        for (const [path, digest] of Object.entries({ ...files, ...pack })) {
            const held = await cache.match("/" + path);
            if (!held) return null;
            const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", await held.arrayBuffer()));
            if (btoa(String.fromCharCode(...sum)) !== digest) return null;
        }
        return version; }""")


def test_a_newer_version_is_told_beside_the_verdict_and_taken_over_when_a_page_is_opened(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    page.evaluate("window.before = true")
    host.publish("B")
    updated(page)
    expect(page.locator(".rf-answer .rf-standing")).to_contain_text(NEWER)
    above, below = (
        page.locator(".rf-answer .rf-standing").bounding_box(),
        page.locator(".rf-banner").bounding_box(),
    )
    assert 0 <= below["y"] - (above["y"] + above["height"]) < 60, "beside the verdict"
    assert page.evaluate("window.before") is True and one_version(page) == edition(built["A"]), (
        "nothing changes under the hand"
    )
    page.goto(f"leads/{small.THROUGH}/")
    expect(page.locator("meta[name=edition]")).to_have_attribute("content", edition(built["B"]))
    page.goto(CHECK)
    expect(page.locator(".rf-banner")).to_be_visible()
    assert one_version(page) == edition(built["B"])
    host.stop()
    assert answered(page) == "safe" and one_version(page) == edition(built["B"])


def test_a_tap_uses_it_at_once_and_what_was_chosen_stays(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    host.publish("B")
    updated(page)
    page.locator(".rf-answer").get_by_role("button", name="Use it now").click()
    expect(page.locator("meta[name=edition]")).to_have_attribute("content", edition(built["B"]))
    expect(page.locator(".rf-banner")).to_be_visible()
    assert page.url.endswith(CHECK) and one_version(page) == edition(built["B"])


def test_a_page_where_something_is_being_typed_keeps_the_version_it_has(phone, host, built):
    page = phone.open()
    keep(page)
    other = phone.open("leads/")
    field = page.locator(".rf-picker input, #rf-check input").first
    page.bring_to_front()
    field.fill("lav")
    host.publish("B")
    updated(page)
    again(other)
    expect(other.locator(".rf-standing")).to_contain_text(NEWER)
    assert field.input_value() == "lav" and one_version(page) == edition(built["A"])
    other.get_by_role("button", name="Use it now").click()
    expect(other.locator("meta[name=edition]")).to_have_attribute("content", edition(built["B"]))
    expect(page.locator(".rf-standing").first).to_contain_text(TAKEN)
    assert field.input_value() == "lav", "what was typed is still there"


@pytest.mark.parametrize(
    "late",
    [
        "assets/js/data.js",
        "assets/js/table.js",
        "assets/js/engine.js",
        "assets/css/site.css",
        "offline/site.pack",
        "offline/site.json",
        "sw.js",
        "offline-list.js",
        "check/index.html",
    ],
)
def test_half_a_deploy_never_becomes_a_version_and_heals(phone, host, built, late):
    """B is published but for one file, which is still A's."""
    page = phone.open(CHECK)
    keep(page)
    host.publish("B", [late])
    updated(page)
    for _ in range(2):
        page.goto("about:blank")
        page.goto(CHECK)
        expect(page.locator(".rf-banner")).to_be_visible()
        # those still say A, or are inside the pack: no fault to be told
        if late not in ("sw.js", "offline-list.js", "check/index.html"):
            updated(page)
            expect(page.locator(".rf-answer .rf-standing")).to_contain_text(
                "A newer version could not be kept: part of it is not on the site yet"
            )
        assert one_version(page) in (edition(built["A"]), edition(built["B"]))
        expect(page.locator(".rf-answer:not([aria-busy]) .rf-banner")).to_have_attribute(
            "data-verdict", "safe"
        )
    host.publish("B")
    page.close()
    heals(phone, built)


@pytest.mark.parametrize(
    "gone", ["all", "assets/js/data.js", "offline/site.json", "offline/site.pack", "assets/js/check.js"]
)
def test_a_store_that_was_cleared_gives_way_to_the_network_and_is_mended(phone, host, built, gone):
    page = phone.open(CHECK)
    keep(page)
    page.evaluate(
        """async (gone) => { for (const name of await caches.keys()) {
        if (gone === "all") await caches.delete(name); else await (await caches.open(name)).delete("/" + gone); } }""",
        gone,
    )
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])
    becomes(
        page,
        f"""async () => (await Promise.all((await caches.keys()).map(async (name) =>
        (await (await caches.open(name)).keys()).length))).includes({len(offline.read((built["A"] / "offline-list.js").read_text())["files"]) + 2})""",
    )
    host.stop()
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])


def test_a_pack_that_does_not_unpack_gives_way_to_the_network_and_is_mended(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    page.evaluate("""async () => { for (const name of await caches.keys()) { const cache = await caches.open(name);
        if (await cache.match("/offline/site.pack")) await cache.put("/offline/site.pack", new Response(new Uint8Array(1e6))); } }""")
    assert answered(page) == "safe"
    heals(phone, built, "A")


def test_a_store_cleared_while_a_newer_version_was_published_heals_to_that(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    page.evaluate(
        "caches.keys().then((all) => Promise.all(all.map((name) => caches.delete(name)))).then(() => 0)"
    )
    host.publish("B")
    assert answered(page) == "safe", "from the network"
    page.close()
    heals(phone, built)


def quota(page, host, share):
    """The origin may store so many bytes."""
    page.context.new_cdp_session(page).send(
        "Storage.overrideQuotaForOrigin", {"origin": host.base.rstrip("/"), "quotaSize": share}
    )


def size(folder):
    listed = offline.read((folder / "offline-list.js").read_text())
    return sum((folder / path).stat().st_size for path in (*listed["files"], *listed["pack"]))


def test_no_room_for_the_first_version_is_said(phone, host, built):
    page = phone.open("leads/")
    page.evaluate(
        "navigator.serviceWorker.getRegistration().then((one) => one && "
        "one.unregister()).then(() => caches.keys()).then((all) => Promise.all(all.map((name) => "
        "caches.delete(name)))).then(() => 0)"
    )
    quota(page, host, size(built["A"]) // 3)
    page.goto("check/")
    expect(page.locator("#rf-offline")).to_have_text(
        "Not kept for offline use: this device has no room for it."
    )
    assert answered(page) == "safe", "it works from the network all the same"


def test_no_room_for_two_versions_makes_room_by_letting_the_old_one_go(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    quota(page, host, int(1.5 * size(built["A"])))
    host.publish("B")
    updated(page)
    page.close()
    heals(phone, built)


def test_no_room_for_the_newer_version_is_said_and_the_old_one_stays(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    host.publish("B")
    grown = (built["B"] / "assets/js/seek.js").read_bytes() + b" " * 40_000_000
    listed = offline.read((built["B"] / "offline-list.js").read_text())
    listed["files"]["assets/js/seek.js"] = offline.digest(grown)
    host.replaced = {
        "assets/js/seek.js": grown,
        "offline-list.js": f"self.OFFLINE = {json.dumps(listed)};\n".encode(),
    }
    quota(page, host, 3 * size(built["A"]))
    updated(page)
    expect(page.locator(".rf-answer .rf-standing")).to_contain_text(
        "A newer version could not be kept: this device has no room for it. Free some space"
    )
    host.stop()
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])


def test_a_browser_that_cannot_unpack_keeps_the_tools_and_says_so(phone, host, built):
    without = b"delete self.DecompressionStream;\n" + (built["A"] / "sw.js").read_bytes()
    host.replaced["sw.js"] = without
    page = phone.open(CHECK)
    expect(page.locator("#rf-offline")).to_contain_text(
        "the check, the bench, the bag and the lists work without a network. This browser cannot unpack "
        "the rest"
    )
    becomes(page, "navigator.serviceWorker.controller !== null")
    host.stop()
    assert answered(page) == "safe"
    page.goto("bench/")
    expect(page.locator("#rf-bench")).to_be_visible()
    page.goto("leads/")
    with pytest.raises(Exception, match="ERR_"):
        page.goto(f"leads/{small.THROUGH}/")
    host.start()
    host.publish("B")
    host.replaced["sw.js"] = without
    page.close()
    page = phone.open(CHECK)
    updated(page)
    for _ in range(3):
        assert answered(page) == "safe" and one_version(page) in (edition(built["A"]), edition(built["B"]))
    assert one_version(page) == edition(built["B"])


@pytest.mark.parametrize("status", [404, 500, 503])
def test_a_server_that_fails_changes_nothing_and_heals(phone, host, built, status):
    page = phone.open(CHECK)
    keep(page)
    host.publish("B")
    host.refused["*"] = status
    updated(page)
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])
    del host.refused["*"]
    host.refused["assets/js/data.js"] = status
    updated(page)
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])
    host.refused.clear()
    page.close()
    heals(phone, built)


def test_a_page_of_two_versions_judges_nothing(phone, host, built):
    """No worker, half a deploy: the page is B's, a script is still A's."""
    host.publish("B", ["assets/js/data.js"])
    page = phone.new_page()
    page.add_init_script("delete Navigator.prototype.serviceWorker;")
    page.goto(CHECK)
    # it has tried once more by itself
    becomes(page, "performance.getEntriesByType('navigation')[0].type === 'reload'")
    expect(page.locator(".rf-banner")).to_contain_text("Not worked out")
    expect(page.locator(".rf-banner")).to_contain_text("put together from two versions of the site")
    expect(page.locator(".rf-standing__loud").first).to_be_visible()
    page.goto("matrix/")
    expect(page.locator("#rf-matrix")).to_contain_text("it shows no verdicts")
    assert page.locator("[data-verdict]").count() == 0


def test_a_page_that_was_overtaken_while_it_loaded_loads_itself_anew(phone, host, built):
    """The page is B's, and the first answer for one of its scripts still A's."""
    host.publish("B")
    page, asked = phone.new_page(), []

    def first_old(route):
        asked.append(route.request.url)
        route.fulfill(path=built["A"] / "assets/js/data.js") if len(asked) == 1 else route.continue_()

    page.add_init_script("delete Navigator.prototype.serviceWorker;")
    page.route("**/assets/js/data.js", first_old)
    page.goto(CHECK)
    expect(page.locator(".rf-banner")).to_have_attribute("data-verdict", "safe")
    assert one_version(page) == edition(built["B"]) and len(asked) > 1
    assert page.locator(".rf-standing__loud").count() == 0


def test_a_page_whose_data_did_not_load_says_so_and_begins_anew(phone, host):
    """A phone at the edge of the network."""
    host.refused["assets/js/data.js"] = 503
    page = phone.open(CHECK)
    told = page.locator(".rf-standing__loud").first
    expect(told).to_contain_text("A part of this page did not load, so nothing on it is worked out.")
    host.refused.clear()
    told.get_by_role("button", name="Load it again").click()
    expect(page.locator(".rf-banner")).to_be_visible()
    expect(page.locator(".rf-standing__loud")).to_have_count(0)


def test_without_the_table_the_answer_says_what_it_lacks(phone, host):
    host.refused["assets/js/table.js"] = 404
    page = phone.open(CHECK)
    expect(page.locator(".rf-answer")).to_contain_text(
        "Worked out here only: the table this answer is held against did not load."
    )
    host.refused.clear()
    page.reload()
    expect(page.locator(".rf-banner")).to_be_visible()
    expect(page.locator(".rf-answer")).not_to_contain_text("Worked out here only")


def withdraw(host, built, name):
    host.replaced["withdrawn.json"] = json.dumps({"withdrawn": {edition(built[name]): WHY}}).encode()


def test_a_withdrawn_version_says_so_over_its_verdicts_until_it_is_replaced(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    expect(page.locator(".rf-standing__quiet").first).to_contain_text("last compared with the site")
    withdraw(host, built, "A")
    page.reload()
    loud = page.locator(".rf-answer .rf-standing__loud")
    expect(loud).to_contain_text(f"Do not rely on this version: it was withdrawn. {WHY}")
    host.stop()
    page.reload()
    expect(loud).to_contain_text(WHY)
    page.goto(f"leads/{small.THROUGH}/")
    expect(page.locator(".rf-standing__loud")).to_contain_text(WHY)
    host.start()
    host.publish("B")
    withdraw(host, built, "A")
    page.close()
    page = heals(phone, built)
    assert answered(page) == "safe" and page.locator(".rf-standing__loud").count() == 0


@pytest.mark.parametrize("said", [b"<html>Log in to this network</html>", b"[]", b'{"withdrawn": 3}', b""])
def test_what_is_no_answer_of_the_site_is_no_contact(phone, host, said):
    host.replaced["withdrawn.json"] = said
    page = phone.open(CHECK)
    keep(page)
    assert page.evaluate("localStorage.getItem('ringfence.contact')") is None
    assert page.locator(".rf-standing__loud").count() == 0


def test_half_a_year_without_contact_is_loud(phone, host):
    page = phone.open(CHECK)
    keep(page)
    host.stop()
    page.evaluate(
        "localStorage.setItem('ringfence.contact', JSON.stringify({ at: Date.UTC(2024, 2, 1), withdrawn: "
        "{} }))"
    )
    page.reload()
    expect(page.locator(".rf-answer .rf-standing__loud")).to_contain_text(
        "This copy has not reached its site since 2024-03-01."
    )
    host.start()
    page.reload()
    expect(page.locator(".rf-answer .rf-standing__quiet")).to_contain_text("last compared with the site")
    expect(page.locator(".rf-standing__loud")).to_have_count(0)


def test_two_pages_open_take_over_together_when_neither_has_work(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    other = phone.open("bench/")
    host.publish("B")
    updated(page)
    # all of B is here
    becomes(page, "navigator.serviceWorker.getRegistration().then((one) => Boolean(one.waiting))")
    again(other)
    expect(other.locator("meta[name=edition]")).to_have_attribute("content", edition(built["B"]))
    expect(page.locator(".rf-answer .rf-standing")).to_contain_text(TAKEN)
    page.get_by_role("button", name="Load this page anew").first.click()
    expect(page.locator("meta[name=edition]")).to_have_attribute("content", edition(built["B"]))
