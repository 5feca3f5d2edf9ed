"""What stands on every kind of record page, in which order, and that it is in sight; what coverage and the
guides show beside the figures."""

import re

import pytest
from kinds import RECORDS, page_of
from playwright.sync_api import expect

pytestmark = pytest.mark.browser

HEADINGS = {
    "connector": ["How to recognise it", "Goes into", "How we know", "Take it with you"],
    "assignment": ["Contacts", "How to recognise the connector", "How we know", "Take it with you"],
    "port": [
        "Contacts",
        "How to recognise it",
        "Levels, supplies and limits",
        "How we know",
        "Take it with you",
    ],
    "lead": [
        "Contacts",
        "How to recognise it",
        "Mistaken for",
        "What it connects, and how that ends",
        "How we know",
        "Take it with you",
    ],
}


@pytest.mark.parametrize("kind", RECORDS)
def test_the_drawing_comes_first_and_the_rest_in_order(visit, catalogue, kind):
    page = visit(page_of(kind, catalogue))
    expect(page.locator(".rf-figure svg").first).to_be_in_viewport()
    assert page.locator(".rf-figure").first.evaluate(
        "figure => figure.compareDocumentPosition(document.querySelector('main h2')) & "
        "Node.DOCUMENT_POSITION_FOLLOWING"
    )
    heads = page.locator("main h2").all_inner_texts()
    assert [head for head in heads if head in HEADINGS[kind]] == HEADINGS[kind]
    expect(page.locator("footer")).to_contain_text(re.compile(r"Data of \d{4}-\d\d-\d\d \(\w+\)"))


@pytest.mark.parametrize("kind", RECORDS)
def test_every_drawing_has_its_words(visit, catalogue, kind):
    page = visit(page_of(kind, catalogue))
    for drawing in page.locator("main .rf-figure svg").all():
        title, desc = drawing.get_attribute("aria-labelledby").split()
        assert (
            drawing.get_attribute("role") == "img"
            and drawing.locator(f"#{title}").text_content()
            and len(drawing.locator(f"#{desc}").text_content()) > 15
        )


def test_a_fact_is_corrected_from_where_it_stands(visit):
    page = visit("ports/mic-dynamic-xlr/")
    page.get_by_role("link", name="Correct this fact").tap()
    questions = page.get_by_text("1. What does the page say?")
    expect(questions).to_be_in_viewport()
    expect(questions).to_contain_text("pinouts/ports/mic-dynamic-xlr.yaml")


def test_contested_facts_stand_side_by_side_with_grade_and_source(visit):
    page = visit("coverage/")
    asked = page.locator("details.rf-group:has(.rf-variants)")
    assert asked.count() > 10
    for question in asked.all():
        question.locator("summary").tap()
        variants = question.locator(".rf-variants > li")
        assert variants.count() >= 2
        for variant in variants.all():
            expect(variant.locator(".rf-grade")).to_be_visible()


def test_every_column_of_the_grades_is_in_sight_on_a_phone(visit):
    page = visit("coverage/")
    assert page.locator(".rf-scroll").first.evaluate("one => one.scrollWidth - one.clientWidth") <= 1


@pytest.mark.parametrize(
    "guide", ["plugs", "balance", "powering", "adapters", "headsets", "cables", "levels", "order", "hum"]
)
def test_a_guide_shows_drawings_and_live_examples_that_open_the_check(visit, guide):
    page = visit(f"guides/{guide}/")
    assert page.locator("main .rf-figure svg").count() >= 1
    example = page.locator(".rf-examples .rf-row").first
    verdict = example.locator(".rf-verdict").inner_text()
    example.tap()
    expect(page.locator(".rf-banner[data-verdict] h2")).to_have_text(re.compile(verdict, re.IGNORECASE))


def test_the_data_may_be_thrown_away_and_the_site_says_so(visit):
    expect(visit("methods/").locator("main")).to_contain_text(
        "Some phones throw such stores away after a week without a visit, unless the page was added to the "
        "home screen"
    )
