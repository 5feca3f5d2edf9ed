"""Scripts and styles joined: nothing is lost, the order holds, and what comes later is apart."""

import re

from front import read, sources

from generator.site import bundles
from generator.site.bundles import joined

ASSETS = {
    f"assets/{path}": path.encode() + b"\n"
    for path in (
        "js/ui/b.js",
        "js/ui/a.js",
        "js/engine/judge.js",
        "js/engine/explain.js",
        "js/engine/cases.js",
        "js/check/working.js",
        "js/check/answer.js",
        "js/judging/ask.js",
        "js/judging/kinds.js",
        "js/judging/worker.js",
        "css/bag.css",
        "css/check.css",
        "css/records.css",
        "css/frame.css",
        "css/palette.css",
        "css/embed.css",
        "css/workshop.css",
        "logo.svg",
    )
}


def holds(script):
    """What a script was joined from; the sources here are their own names."""
    return re.findall(rb"js/[\w/]+\.js", joined(ASSETS)[f"assets/js/{script}.js"])


def test_a_folder_is_a_script_in_name_order_and_the_working_is_apart():
    found = joined(ASSETS)
    assert holds("ui") == [b"js/ui/a.js", b"js/ui/b.js"]
    assert holds("working") == [b"js/check/working.js"] and holds("explain") == [
        b"js/engine/cases.js",
        b"js/engine/explain.js",
    ]
    assert not any(path.count("/") > 2 and path.startswith(bundles.SCRIPTS) for path in found)


def test_the_engine_answers_the_check_asks_and_the_worker_holds_nothing_that_a_page_has():
    assert holds("engine") == [b"js/engine/judge.js", b"js/judging/kinds.js"]
    assert holds("check") == [b"js/check/answer.js", b"js/judging/ask.js"] and holds("worker") == [
        b"js/judging/worker.js"
    ]


def test_styles_others_build_on_come_first_those_of_tools_are_a_file_and_those_for_frames_stay_out():
    assert joined(ASSETS)[bundles.SITE].decode().split() == [
        f"css/{name}.css" for name in ("palette", "frame", "records")
    ]
    assert joined(ASSETS)[bundles.TOOLS].decode().split() == ["css/check.css", "css/bag.css"]
    assert (
        joined(ASSETS)["assets/css/embed.css"] == b"css/embed.css\n"
        and joined(ASSETS)["assets/css/workshop.css"] == b"css/workshop.css\n"
        and joined(ASSETS)["assets/logo.svg"] == b"logo.svg\n"
    )


def test_every_source_is_in_what_is_joined():
    scripts = b"".join(
        joined({f"{bundles.SCRIPTS}{path}": text for path, text in sources().items()}).values()
    ).decode()
    assert [path for path, module in read().items() if module.body.strip() not in scripts] == []


def test_paths_are_those_of_the_tree(tree):
    assert {
        f"assets/js/{name}.js"
        for name in (
            "data",
            "circuits",
            "printed",
            "table",
            "plugs",
            "page",
            "engine",
            "ui",
            "check",
            "working",
            "explain",
            "worker",
            "bench",
            "bag",
            "matrix",
            "recognise",
            "cards",
        )
    } <= set(tree)
