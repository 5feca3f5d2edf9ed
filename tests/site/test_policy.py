"""The policy in a page names each inline script by its digest and lets nothing else run. What browsers make
of it: tests/browser."""

import pytest

from generator.site.policy import guarded, policy, tight

PAGE = (
    "<head>\n"
    '<meta charset="utf-8">\n'
    '<script>go()</script><script src="a.js"></script><script type="application/json">{}</script></head>'
)
# printf 'go()' | openssl dgst -sha256 -binary | base64
DIGEST = "'sha256-5KYv+PUboo5h+0+YAtGRPbwv5d/QxzHslP4YGnUaxRw='"


def test_an_inline_script_is_allowed_by_its_digest_and_nothing_else_is():
    said = policy(PAGE)
    assert said.startswith("default-src 'self'; script-src 'self' " + DIGEST + "; ")
    assert "unsafe" not in said and said.count("sha256") == 1


def test_the_policy_comes_before_what_it_is_about():
    page = guarded(PAGE)
    assert page.index("Content-Security-Policy") < page.index("<script")
    assert page.index('<meta charset="utf-8">') < page.index("Content-Security-Policy")


def test_a_page_without_a_place_for_it_is_a_fault():
    with pytest.raises(
        ValueError, match='the page should have <meta charset="utf-8"> once, where its policy goes'
    ):
        guarded("<head><script>go()</script></head>")


def test_blank_lines_and_indents_go_and_words_and_poems_stay():
    page = "<p>\n    One\n\n\n    two </p>\n  <pre>\n  a\n\n   b</pre>\n\n <script>\n  go()\n\n</script>"
    assert tight(page) == "<p>\nOne\ntwo </p>\n<pre>\n  a\n\n   b</pre>\n<script>\n  go()\n\n</script>"
