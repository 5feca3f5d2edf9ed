"""A phone without room for a version, or a browser that cannot unpack one: said, and nothing half kept."""

import json

import pytest
import small
from conftest import becomes
from editions import CHECK, answered, edition, heals, keep, one_version, updated
from playwright.sync_api import expect

from generator.site import offline

pytestmark = pytest.mark.browser


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
