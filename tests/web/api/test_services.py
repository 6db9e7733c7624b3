"""Every service over HTTP: the words and numbers of the command of the same name."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

import pytest
from jsonschema import Draft202012Validator

from tests.cli.calling import RIG, TINY, call
from tests.web.serving import ASKED, at, client, client_of, written
from topheavy.planfile import demo_plan_text

if TYPE_CHECKING:
    from starlette.testclient import TestClient

DESCRIBED = {
    "left": "A1+A2",
    "right": "A3+A4",
    "feeder": "strap:2",
    "connector": "screw link",
    "straight": "65kg",
}
LOADS = ("--gym", TINY, "--bottom", "65kg", "--top", "85kg")
READINGS = ["66cm=65.5kg:up", "80cm=69.1kg", "95cm=76.3kg:up", "105cm=81.2kg"]


@cache
def page() -> dict[str, Any]:
    found: dict[str, Any] = client().get("/api/openapi.json").json()
    return found


@cache
def demo() -> TestClient:
    """The built-in gym."""
    return client_of(None)


def fits(told: object, path: str, method: str = "get", status: str = "200") -> None:
    """Assert that an answer is what the description says."""
    content = page()["paths"][path][method]["responses"][status]["content"]
    ((_, one),) = content.items()
    schema = {**one["schema"], "components": page()["components"]}
    Draft202012Validator(schema).validate(told)


@pytest.mark.parametrize(
    ("path", "words", "command"),
    [
        (
            "/api/rig",
            {"straight": "65kg", "chain": "20%", "hang": ["draped", "doubled"], "units": "lb"},
            ("rig", "--gym", TINY, "--straight", "65kg", "--chain", "20%", "--hang", "draped",
             "--hang", "doubled", "--units", "lb"),
        ),
        (
            "/api/rig",
            {"way": "match", "set": ["5x80kg@1", "3x90kg"], "effort": "80%"},
            ("rig", "--gym", TINY, "--match", "--set", "5x80kg@1", "--set", "3x90kg",
             "--effort", "80%"),
        ),
        (
            "/api/curve",
            {**DESCRIBED, "lifter": "Ansa", "at": ["80cm", "1 m"], "reach": "70kg"},
            ("curve", *RIG, "--lifter", "Ansa", "--at", "80cm", "--at", "1 m", "--reach", "70kg"),
        ),
        (
            "/api/weigh",
            {**DESCRIBED, "lifter": "Ansa", "reading": READINGS, "scale_within": "0.2 kg"},
            ("weigh", *RIG, "--lifter", "Ansa", "--scale-within", "0.2 kg",
             *(word for reading in READINGS for word in ("--reading", reading))),
        ),
        (
            "/api/catalogue",
            {"size": "5/8 in", "units": "lb"},
            ("catalogue", "--size", "5/8 in", "--units", "lb"),
        ),
        (
            "/api/catalogue",
            {"wire": "15.8mm", "width": "21mm", "outside": "592mm", "share": "25%"},
            ("catalogue", "--wire", "15.8mm", "--width", "21mm", "--outside", "592mm",
             "--share", "25%"),
        ),
        (
            "/api/strength",
            {"lifter": "Ansa", "miss": "middle=90kg", "speed": "85kg=0.35"},
            ("strength", "--gym", TINY, "--lifter", "Ansa", "--miss", "middle=90kg",
             "--speed", "85kg=0.35"),
        ),
        (
            "/api/rep",
            {**ASKED, "effort": "80%", "lower": "3"},
            ("rep", *LOADS, "--effort", "80%", "--lower", "3"),
        ),
        (
            "/api/ramp",
            {**ASKED, "singles": "true", "after": "65kg", "reps_left": "1", "attempt": "2"},
            ("ramp", *LOADS, "--singles", "--after", "65kg", "--reps-left", "1",
             "--attempt", "2"),
        ),
        (
            "/api/session",
            {**ASKED, "day": "speed", "do": "6x2", "stop_at": "15%"},
            ("session", *LOADS, "--day", "speed", "--do", "6x2", "--stop-at", "15%"),
        ),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)  # fmt: skip
def test_it_answers_as_the_terminal_does(
    path: str, words: dict[str, object], command: tuple[str, ...]
) -> None:
    answer = client().get(at(path, words))
    assert answer.status_code == 200, answer.text
    told = answer.json()
    assert told == call(*command, "--json").json
    fits(told, path)


def test_a_plan_that_is_sent_is_the_plan_that_the_terminal_shows() -> None:
    told = call("weeks", "show", "--lifter", "Pip", "--units", "lb", "--json").json
    asked = at("/api/weeks", {"lifter": "Pip", "units": "lb"})
    assert demo().get(asked).json() == told
    plan = demo_plan_text().encode()
    sent = demo().post(asked, content=plan, headers=written(demo()))
    assert sent.json() == told
    fits(sent.json(), "/api/weeks", "post")
    missing = demo().get("/api/weeks?week=99")
    assert missing.status_code == 422
    assert missing.json()["field"] == "week"


def test_bands_are_found_and_described() -> None:
    words = {"lifter": "Osric", "bottom": "85kg", "top": "115kg", "bands": "1"}
    told = demo().get(at("/api/rig", words)).json()
    assert (
        told
        == call(
            "rig",
            "--lifter",
            "Osric",
            "--bottom",
            "85kg",
            "--top",
            "115kg",
            "--bands",
            "1",
            "--json",
        ).json
    )
    fits(told, "/api/rig")


@pytest.mark.parametrize("path", ["/api/rig/stage", "/api/rig/motion", "/api/rig/chosen"])
def test_the_drawing_is_as_described(path: str) -> None:
    chosen = {
        **ASKED, "left": ["A1"], "right": ["A3"], "feeder": "strap", "setting": "2",
        "connector": "screw link", "plate": ["20"],
    }  # fmt: skip
    fits(client().get(at(path, chosen)).json(), path)
    fits(client().get("/api/gym").json(), "/api/gym")


@pytest.mark.parametrize(
    ("path", "words", "field", "said"),
    [
        ("/api/curve", {}, "left", "left A1+A2 right A3+A4"),
        ("/api/curve", {**DESCRIBED, "bottom": "66cm"}, "bottom and top", "only bottom"),
        ("/api/weigh", DESCRIBED, "reading", "reading 70cm=92.1kg"),
        ("/api/weigh", {**DESCRIBED, "reading": "70cm"}, "reading", "70cm=92.1kg:up"),
        ("/api/catalogue", {"width": "21mm"}, "width", "outside 592mm"),
        ("/api/catalogue", {"wire": "-5mm", "pitch": "56mm"}, "wire", "-5"),
        ("/api/strength", {"set": "many"}, "set", "5x100kg"),
        ("/api/rig", {**ASKED, "set": "5x80kg"}, "set", "match"),
        ("/api/rig", {**ASKED, "links_down": "1", "all_clear": "1"}, "links_down and all_clear",
         "one of the two"),
        ("/api/ramp", {**ASKED, "missed": "1"}, "missed", "after with"),
        ("/api/session", {**ASKED, "do": "many"}, "do", "5x3"),
        ("/api/rep", {**ASKED, "effort": "much"}, "effort", "%"),
        ("/api/weeks", {}, "gym", "built-in"),
    ],
)  # fmt: skip
def test_mistakes_speak_of_words_and_not_of_options(
    path: str, words: dict[str, object], field: str, said: str
) -> None:
    answer = client().get(at(path, words))
    assert answer.status_code == 422, answer.text
    told = answer.json()
    fits(told, path, status="422")
    assert told["field"] == field
    assert said in answer.text
    assert "--" not in answer.text


def test_a_plan_with_mistakes_tells_them_all() -> None:
    broken = demo_plan_text().replace('lift = "squat"', 'lift = "swat"')
    answer = demo().post("/api/weeks", content=broken.encode(), headers=written(demo()))
    assert answer.status_code == 422
    assert "swat" in answer.text
    fits(answer.json(), "/api/weeks", "post", "422")
    for content in (b"\xff\xfe", b"", b"x" * 300_000):
        refused = demo().post("/api/weeks", content=content, headers=written(demo()))
        assert refused.status_code == 422, refused.text
