"""A withdrawn version, and one that has long heard nothing of the site, say so over their verdicts."""

import json

import pytest
import small
from editions import CHECK, answered, edition, heals, keep
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


WHY = "Transformers were taken to block direct current that they do not."


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
