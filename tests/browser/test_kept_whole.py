"""What is kept on a phone is of one version, whole, and heals: half a deploy, a store that is gone in part or
altogether, no room, a browser that cannot unpack, a server that fails, several pages open. After each the
site answers as the newest version does once the server is whole."""

import pytest
import small
from conftest import becomes
from editions import CHECK, NEWER, TAKEN, again, answered, edition, heals, keep, one_version, updated
from playwright.sync_api import expect

from generator.site import offline

pytestmark = pytest.mark.browser


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
        "assets/js/check.js",
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
        if (gone === "all") await caches.delete(name);
          else await (await caches.open(name)).delete("/" + gone); } }""",
        gone,
    )
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])
    whole = len(offline.read((built["A"] / "offline-list.js").read_text())["files"]) + 2
    becomes(
        page,
        f"""async () => (await Promise.all((await caches.keys()).map(async (name) =>
        (await (await caches.open(name)).keys()).length))).includes({whole})""",
    )
    host.stop()
    assert answered(page) == "safe" and one_version(page) == edition(built["A"])


def test_a_pack_that_does_not_unpack_gives_way_to_the_network_and_is_mended(phone, host, built):
    page = phone.open(CHECK)
    keep(page)
    page.evaluate("""async () => { for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        if (await cache.match("/offline/site.pack")) await cache.put("/offline/site.pack",
          new Response(new Uint8Array(1e6))); } }""")
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
