"""The same answers as JSON: equal to the library's, described, and mistakes of one shape."""

from __future__ import annotations

import numpy as np
import pytest

from tests.cli.calling import TINY, call
from tests.web.serving import ASKED, CHOSEN, at, client, written
from topheavy.gymfile import read_gym
from topheavy.services.chosen import choose
from topheavy.web.question import parts_from, place_of
from topheavy.web.words import ChosenWords


def test_a_rig_is_the_terminal_s_rig() -> None:
    told = call("rig", "--gym", TINY, "--bottom", "65kg", "--top", "85kg", "--json").json
    assert client().get(at("/api/rig", ASKED)).json() == told


def test_loads_may_be_said_in_pounds_and_as_shares_of_the_best() -> None:
    kg = client().get(at("/api/rig", {**ASKED, "bottom": "60%", "top": "80 kg"})).json()
    lb = (
        client()
        .get(at("/api/rig", {**ASKED, "bottom": "60 kg", "top": "80kg", "units": "lb"}))
        .json()
    )
    assert kg["plates_a_side"] == lb["plates_a_side"]
    assert lb["loads"][0]["raising"]["shown"].endswith(" lb")
    bare = client().get(at("/api/rig", {**ASKED, "bottom": "143.3", "top": "187.4", "units": "lb"}))
    assert "143.3 lb at 26.0 in" in bare.json()["wanted"]


def test_matching_needs_no_loads() -> None:
    answer = client().get(at("/api/rig", {"way": "match", "effort": "80"})).json()
    assert answer["match"]
    assert "80 % of strength" in answer["wanted"]


@pytest.mark.parametrize("way", ["raising", "lowering"])
def test_the_stage_s_curve_is_the_library_s(way: str) -> None:
    stage = client().get(at("/api/rig/stage", CHOSEN)).json()
    words = ChosenWords.model_validate(CHOSEN)
    gym = read_gym(TINY)
    place = place_of(gym, words)
    rig = choose(place, parts_from(words, place)).rig
    curve = rig.curve(place.ground, "raising" if way == "raising" else "lowering")
    at_m, loads_kg = np.array(stage[way]).T
    heights_m = np.linspace(0.6601, 1.0699, 97)
    assert np.interp(heights_m, at_m, loads_kg) == pytest.approx(curve.at(heights_m), abs=2e-3)


def test_the_bar_is_where_it_was_asked() -> None:
    stage = client().get(at("/api/rig/stage", {**CHOSEN, "height": "90 cm"})).json()
    assert stage["bar_m"] == pytest.approx(0.9)


def test_motion_begins_at_the_bottom_and_ends_at_the_top() -> None:
    for straight in ("false", "true"):
        motion = client().get(at("/api/rig/motion", {**CHOSEN, "straight": straight})).json()
        assert motion["stretches"][0]["heights_m"][0] == pytest.approx(0.66)
        assert motion["stretches"][-1]["heights_m"][-1] == pytest.approx(1.07, abs=1e-5)


def test_a_card_is_a_pdf() -> None:
    for path, words in (("/api/rig/card", ASKED), ("/api/rig/chosen/card", CHOSEN)):
        assert client().get(at(path, words)).content.startswith(b"%PDF-")


@pytest.mark.parametrize(
    ("path", "words", "status", "field"),
    [
        ("/api/rig", {**ASKED, "bottom": "x"}, 422, "bottom"),
        ("/api/rig", {**ASKED, "bottom": "9" * 99}, 422, "bottom"),
        ("/api/rig", {**ASKED, "nix": "1"}, 422, "nix"),
        ("/api/rig", {**ASKED, "units": "stone"}, 422, "units"),
        ("/api/rig", {**ASKED, "lifter": "\x00"}, 422, "lifter"),
        ("/api/rig/chosen", {**CHOSEN, "plate": ["nan"]}, 422, "plate"),
        ("/api/rig/chosen", {**CHOSEN, "left": ["A1"] * 41}, 422, "left"),
        ("/api/rig/stage", {**CHOSEN, "height": "high"}, 422, "height"),
        ("/api/rig/motion", {**CHOSEN, "straight": "perhaps"}, 422, "straight"),
        ("/api/nowhere", {}, 404, "/api/nowhere"),
    ],
)
def test_mistakes_have_one_shape(
    path: str, words: dict[str, object], status: int, field: str
) -> None:
    answer = client().get(at(path, words))
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    told = answer.json()
    assert {"type", "title", "status", "detail"} <= set(told)
    assert (told["status"], told["field"]) == (status, field)


def test_only_reading_is_allowed() -> None:
    answer = client().post("/api/rig", headers=written(client()))
    assert answer.status_code == 405
    assert answer.json()["status"] == 405


def test_every_route_is_described_with_its_mistakes() -> None:
    page = client().get("/api/openapi.json").json()
    for path in page["paths"].values():
        for route in path.values():
            told = route["responses"]
            assert {"200", "401", "403", "422", "503"} <= set(told)
            mistakes = [one for status, one in told.items() if status >= "400"]
            assert all(set(one["content"]) == {"application/problem+json"} for one in mistakes)
            assert all(one["description"] for one in told.values())
            assert all(one["description"] for one in route.get("parameters", []))
            assert route["summary"]
