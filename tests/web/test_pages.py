"""The pages: what can be picked, what was found, what is said of mistakes."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path

import pytest

from tests.cli.calling import TINY
from tests.web.serving import ASKED, CHOSEN, at, client, client_of, text_of


def test_the_first_address_leads_to_the_rig_page() -> None:
    answer = client().get("/", follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (307, "/rig")


def test_the_page_offers_what_the_gym_has_and_fills_in_what_it_knows() -> None:
    page = client().get("/rig").text
    assert "The Shed" in page
    assert "<option selected>Ansa</option>" in page
    assert 'name="bottom" value="60%"' in page
    found = re.search(r'data-choices="([^"]*)"', page)
    assert found
    choices = json.loads(html.unescape(found[1]))
    assert [lift["lift"] for lift in choices["lifters"][0]["lifts"]] == ["bench press", "squat"]
    assert choices["connectors"] == ["screw link", "toy clip"]
    assert all("R1" not in kind["tags"] for kind in choices["kinds"])


def test_nothing_is_inline_and_nothing_is_from_elsewhere() -> None:
    for path in ("/rig", at("/rig", {**ASKED, "whole": "1"}), "/nowhere"):
        page = client().get(path).text
        assert not re.search(r"<script(?![^>]*\bsrc=)", page)
        assert not re.search(r"\s(style|on[a-z]+)=", page)
        assert "<style" not in page
        links = re.findall(r'(?:src|href|action)="([^"]*)"', page)
        assert links
        assert all(link.startswith(("/", "#")) and not link.startswith("//") for link in links)
        for link in links:
            if link.startswith("/static/"):
                assert client().get(link).status_code == 200, link


def test_every_module_imports_only_modules_that_are_there() -> None:
    seen, todo = set(), ["rig.js"]
    while todo:
        name = todo.pop()
        seen.add(name)
        text = client().get(f"/static/js/{name}").text
        assert text.startswith("// @ts-check")
        todo += [one for one in re.findall(r'from "\./([^"]+)"', text) if one not in seen]
    assert len(seen) > 8


def test_without_scripts_the_answer_comes_with_the_page() -> None:
    page = client().get(at("/rig", {**ASKED, "whole": "1"})).text
    words = text_of(page)
    assert "Hang this" in words
    assert "Set it up" in words
    assert "The rig to scale" in words


def test_the_answer_says_what_the_terminal_says() -> None:
    page = client().get(at("/part/found", ASKED)).text
    view = client().get(at("/api/rig", ASKED)).json()
    words = text_of(page)
    lines = [*view["steps"], *view["signs"], *view["cautions"], view["verdict"], view["proof"]]
    assert not [line for line in lines if " ".join(line.split()) not in words]
    assert view["loads"][0]["raising"]["shown"] in words


def test_a_chosen_rig_is_read_and_what_must_come_down_takes_the_card_away() -> None:
    good = client().get(at("/part/chosen", CHOSEN)).text
    assert "/rig/chosen-card.pdf?" in good
    assert "Proven" not in good
    bad = client().get(at("/part/chosen", {**CHOSEN, "connector": "toy clip"})).text
    assert "Take it down first" in bad
    assert "card.pdf" not in bad


def test_the_card_of_a_found_and_of_a_chosen_rig_is_a_page_to_print() -> None:
    for path, words in (("/rig/card.pdf", ASKED), ("/rig/chosen-card.pdf", CHOSEN)):
        answer = client().get(at(path, words))
        assert answer.headers["content-type"] == "application/pdf"
        assert answer.content.startswith(b"%PDF-")
    refused = client().get(at("/rig/chosen-card.pdf", {**CHOSEN, "connector": "toy clip"}))
    assert refused.status_code == 422
    assert "No card is printed" in refused.text


@pytest.mark.parametrize(
    ("words", "field", "said"),
    [
        ({**ASKED, "bottom": ""}, "bottom", "Say the load"),
        ({**ASKED, "bottom": "heavy"}, "bottom", "Not a mass"),
        ({**ASKED, "bottom": "-5"}, "bottom", "above zero"),
        ({**ASKED, "top": "0"}, "top", "above zero"),
        ({**ASKED, "lifter": "Nobody"}, "lifter", "Nobody"),
        ({**ASKED, "lift": "deadlift"}, "lift", "no heights"),
        ({**ASKED, "station": "the rack"}, "station", "not done on a rack"),
        ({"way": "match", "effort": "200%"}, "effort", "share of strength"),
    ],
)
def test_a_mistake_is_told_at_its_field(words: dict[str, str], field: str, said: str) -> None:
    answer = client().get(at("/part/found", words))
    assert answer.status_code == 422
    assert f'data-field="{field}"' in answer.text
    assert said in text_of(answer.text)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ({"lifter": "Nobody"}, "No lifter called 'Nobody'"),
        ({"lift": "curl"}, "No lift called 'curl'"),
        ({"lift": "squat", "station": "the bench"}, "The squat is not done on a bench"),
    ],
)
def test_a_page_never_shows_another_question_than_its_address(
    words: dict[str, str], said: str
) -> None:
    answer = client().get(at("/rig", words))
    assert answer.status_code == 422
    assert said in text_of(answer.text)
    assert 'href="/rig"' in answer.text


def test_names_are_never_taken_for_markup(tmp_path: Path) -> None:
    evil = '<img src=x onerror=alert(1)> & "q"'
    text = Path(TINY).read_text(encoding="utf-8")
    gym = tmp_path / "gym.toml"
    gym.write_text(text.replace('"Ansa"', json.dumps(evil)), encoding="utf-8")
    with client_of(gym) as guest:
        page = guest.get(at("/rig", {"whole": "1", "bottom": "65", "top": "85"})).text
        assert "<img" not in page
        assert html.escape(evil, quote=False).split("&amp;")[0] in page
        missing = guest.get(at("/part/found", {**ASKED, "lifter": "<b>x</b>"})).text
        assert "<b>" not in missing


def test_a_gym_file_that_changes_is_read_again_and_a_broken_one_is_told(tmp_path: Path) -> None:
    text = Path(TINY).read_text(encoding="utf-8")
    gym = tmp_path / "gym.toml"
    gym.write_text(text, encoding="utf-8")
    with client_of(gym) as guest:
        assert "The Shed" in guest.get("/rig").text
        gym.write_text(text.replace("The Shed", "The New Shed"), encoding="utf-8")
        assert "The New Shed" in guest.get("/rig").text
        gym.write_text("[gym]\nname = 3\n", encoding="utf-8")
        assert guest.get("/rig").status_code in {422, 503}
        assert guest.get("/api/gym").headers["content-type"] == "application/problem+json"
        gym.unlink()
        assert guest.get("/rig").status_code == 503


def test_a_gym_without_anybody_says_what_to_do_first(tmp_path: Path) -> None:
    text = Path(TINY).read_text(encoding="utf-8").partition("[[lifter]]")[0]
    gym = tmp_path / "gym.toml"
    gym.write_text(text, encoding="utf-8")
    with client_of(gym) as guest:
        answer = guest.get("/rig")
        assert answer.status_code == 200
        assert "Nobody was measured yet" in answer.text
        assert guest.get("/rig?whole=1").status_code == 200
