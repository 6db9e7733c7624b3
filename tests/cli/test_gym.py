"""`topheavy gym`: check a file, print the example and the schema."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from tests.cli.calling import TINY, call, refused, run
from topheavy.gymfile import demo_text, gym_schema
from topheavy.units import KG_PER_LB


def test_the_example_is_a_gym_file_in_order(tmp_path: Path) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(call("gym", "example").out, encoding="utf-8")
    assert mine.read_text(encoding="utf-8") == demo_text()
    done = call("gym", "check", str(mine))
    assert done.code == 0
    assert "mine.toml is in order." in done.out


def test_the_schema_is_one() -> None:
    schema = json.loads(call("gym", "schema").out)
    assert schema == gym_schema()
    jsonschema.Draft202012Validator.check_schema(schema)


def test_check_counts_what_is_there() -> None:
    view = call("gym", "check", TINY, "--json").json
    thick, thin = view["chain"]
    assert (thick["size"], thick["links"], thick["fit"]) == ("5/8 in", 32, 4)
    assert thick["tags"] == ["A1", "A2", "A3", "A4", "R1"]
    assert thick["mass"]["kg"] == pytest.approx(9.5, abs=0.01)
    assert (thin["tags"], thin["fit"]) == (["H1", "H2"], 2)
    assert [row["count"] for row in view["connectors"]] == [2, 2, 2]
    assert view["plates_total"]["kg"] == 70
    assert view["lifters"] == ["Ansa: bench press, squat"]


def test_check_counts_records_and_tells_of_bests_that_contradict_each_other(
    tmp_path: Path,
) -> None:
    mine = tmp_path / "mine.toml"
    mine.write_text(demo_text(), encoding="utf-8")
    view = call("gym", "check", str(mine), "--json").json
    assert "Osric: bench press (2 records), pin press" in view["lifters"][2]
    assert not [said for said in view["remarks"] if "Osric" in said]
    mine.write_text(demo_text().replace('best = "150 kg"', 'best = "120 kg"'), encoding="utf-8")
    (said,) = (s for s in call("gym", "check", str(mine), "--json").json["remarks"] if "Osric" in s)
    assert "A partial starts higher" in said


def test_check_says_what_can_not_be_used_and_why() -> None:
    done = call("gym", "check", TINY)
    text = " ".join(done.out.split())
    assert done.code == 0
    assert "chain R1: retired (a link is bent)" in text
    assert "connector snap hook: no rating marked" in text
    assert "1/4 in chain is too thin to matter" in text
    assert "Ansa, squat: at the bottom the fold hangs 11.0 cm above the floor" in text


def test_check_tells_of_single_pieces_and_of_what_is_missing(tmp_path: Path) -> None:
    bare = tmp_path / "bare.toml"
    bare.write_text(
        '[gym]\nname = "The {Shed}"\n[[chain]]\ntag = "X1"\nsize = "5/8 in"\nlinks = 32\n'
        '[[feeder]]\nname = "rope {one}"\nform = "strap"\ncount = 1\n'
        'shortest = "40 cm"\nlongest = "80 cm"\n'
        'marks = "1 cm"\nmass = "0.2 kg"\nrating = "100 kg"\n'
    )
    done = call("gym", "check", str(bare))
    text = " ".join(done.out.split())
    assert done.code == 0
    assert "chain X1: no other piece is like it" in text
    assert "feeder rope {one}: only one, two alike are needed" in text
    for missing in ("two chain pieces alike", "two rated connectors", "bar.", "pair of collars"):
        assert f"No {missing}" in text


def test_check_in_pounds() -> None:
    shown = call("gym", "check", TINY, "--units", "lb").out
    assert "20.9" in shown
    assert " lb" in shown


def test_a_weighed_piece_is_as_sure_as_the_scale(tmp_path: Path) -> None:
    """Its pitch nobody measured makes it no surer and no less sure; decimals follow the scale."""
    mine = tmp_path / "mine.toml"
    mine.write_text(
        '[gym]\nname = "The Shed"\nscale_reading = "0.1 lb"\n[[chain]]\ntags = ["A1", "A2"]\n'
        'size = "5/8 in"\nlinks = 32\nweighed = ["21.0 lb", "21.0 lb"]\n'
        '[[chain]]\ntag = "B1"\nsize = "5/8 in"\nlinks = 20\n'
    )
    shown = call("gym", "check", str(mine), "--units", "lb").out
    assert "21.0 \N{PLUS-MINUS SIGN} 0.1 lb" in shown
    assert "13.1 \N{PLUS-MINUS SIGN} 1.3 lb" in shown
    (weighed, _) = call("gym", "check", str(mine), "--json").json["chain"]
    assert weighed["mass"]["standard_uncertainty"] == pytest.approx(0.1 * KG_PER_LB)
    assert weighed["known_by"] == "a scale, each piece"


def test_a_gym_in_pounds_is_shown_in_pounds(tmp_path: Path) -> None:
    text = Path(TINY).read_text(encoding="utf-8").replace("[gym]", '[gym]\nunits = "lb"')
    (tmp_path / "lb.toml").write_text(text, encoding="utf-8")
    assert "44.1 lb" in call("gym", "check", str(tmp_path / "lb.toml")).out


def test_malformed_toml_is_told_with_line_and_column(tmp_path: Path) -> None:
    (tmp_path / "broken.toml").write_text('[gym]\nname = "The Shed"\n[[chain]\n')
    refused(call("gym", "check", str(tmp_path / "broken.toml")), "Not valid TOML", "line 3, column")


def test_every_mistake_is_told_at_once(tmp_path: Path) -> None:
    (tmp_path / "two.toml").write_text(
        '[gym]\nname = "The Shed"\n[[chain]]\ntag = "A1"\nsize = "5/8 in"\nlinks = 0\n'
        '[[plate]]\nmass = "20 stone"\nwidth = "3 cm"\ndiameter = "45 cm"\npairs = 1\n'
    )
    refused(call("gym", "check", str(tmp_path / "two.toml")), "2 mistakes", "links", "stone")


def test_no_file_and_no_name() -> None:
    refused(call("gym", "check", "nowhere.toml"), "There is no such file", "nowhere.toml")
    assert call("gym", "check").code == 2


def test_the_shell_gets_the_exit_code(tmp_path: Path) -> None:
    done = run("gym", "check", str(tmp_path / "nowhere.toml"))
    assert (done.code, done.out) == (2, "")
    assert done.err.startswith("topheavy: There is no such file.\n")
