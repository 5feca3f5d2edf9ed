"""The page of a run: it is drawn as it lies, with the loop shaded and what lets most in marked; a cure that
is tried tells what it was before."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

TWO_EARTHS = (
    "run/#from=player-line-out-rca,earthed&into=mixer-line-in-635-ts,earthed&lead=coax-thin,10&sockets=other "
    "circuit"
)


def test_the_loop_of_two_earths_is_shaded_and_marked(visit):
    page = visit(TWO_EARTHS)
    lies = page.locator(".rf-lies")
    expect(lies.locator("svg")).to_have_attribute(
        "aria-label",
        "the player (earthed mains) into the mixer (earthed mains), 10 m, one core, screen joined. The loop "
        "through both earths is closed. Marked: current through the screen, the way most of it gets in.",
    )
    expect(lies.locator(".rf-lies__loop")).to_have_count(1)
    expect(lies.locator("polyline.rf-lies__marked")).to_have_count(1)
    expect(lies.locator("figcaption")).to_have_text(
        "Marked: current through the screen, the way most of it gets in."
    )


def test_what_nobody_hears_is_not_marked_and_no_loop_is_drawn_with_a_battery(visit):
    page = visit("run/#from=mic-dynamic-xlr,battery&into=mixer-mic-in-p48-xlr,earthed&lead=mic-pair,10")
    expect(page.locator(".rf-run__says")).to_have_text("You will not hear it.")
    expect(page.locator(".rf-lies svg")).to_have_count(1)
    expect(page.locator(".rf-lies__loop, .rf-lies__marked, .rf-lies figcaption")).to_have_count(0)


def test_a_cure_that_is_tried_tells_what_it_was_before(visit):
    page = visit(TWO_EARTHS)
    page.locator("[data-cure]").first.click()
    expect(page.locator(".rf-run__bars")).to_contain_text("Thin: before.")
    expect(page.locator(".rf-run__bars .rf-run__was").first).to_be_attached()
    expect(page.locator(".rf-run__path").first).to_contain_text(", was +")


def test_a_ferrite_is_chosen_by_name_and_drawn(visit):
    page = visit(
        "run/#from=mic-dynamic-xlr,battery&into=mixer-mic-in-p48-xlr,earthed&lead=mic-pair,10&radio=phone,1"
    )
    page.locator("summary", has_text="Radio").click()
    page.get_by_label("ferrite at the input").select_option(label="a ferrite ring, three turns")
    expect(page.locator(".rf-lies__ferrite")).to_have_count(1)
    assert "ferrite=1530" in page.url
    expect(page.get_by_label("its ohms at the transmitter, Ω")).to_have_value("1530")
