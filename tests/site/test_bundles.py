"""Scripts and styles joined: nothing is lost, the order holds, and what comes later is apart."""

from front import SCRIPTS

from generator.site import bundles
from generator.site.bundles import joined, scripts_of

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
        "js/judging/solved.js",
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


def test_a_folder_is_a_script_in_name_order_and_the_working_is_apart():
    found = joined(ASSETS)
    assert found["assets/js/ui.js"] == b"js/ui/a.js\njs/ui/b.js\n"
    assert (
        found["assets/js/working.js"] == b"js/check/working.js\n"
        and found["assets/js/explain.js"] == b"js/engine/cases.js\njs/engine/explain.js\n"
    )
    assert not any(path.count("/") > 2 and path.startswith(bundles.SCRIPTS) for path in found)


def test_the_engine_answers_the_check_asks_and_the_worker_holds_nothing_that_a_page_has():
    found = joined(ASSETS)
    assert found["assets/js/engine.js"] == b"js/engine/judge.js\njs/judging/kinds.js\njs/judging/solved.js\n"
    assert (
        found["assets/js/check.js"] == b"js/check/answer.js\njs/judging/ask.js\n"
        and found["assets/js/worker.js"] == b"js/judging/worker.js\n"
    )


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
        joined(
            {
                f"{bundles.SCRIPTS}{path.relative_to(SCRIPTS).as_posix()}": path.read_bytes()
                for path in SCRIPTS.rglob("*.js")
            }
        ).values()
    )
    assert [
        path.relative_to(SCRIPTS).as_posix()
        for path in sorted(SCRIPTS.rglob("*.js"))
        if path.read_bytes() not in scripts
    ] == []


def test_paths_are_those_of_the_tree(tree):
    assert set(
        scripts_of(
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
    ) <= set(tree)
