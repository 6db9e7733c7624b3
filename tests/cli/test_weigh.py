"""`topheavy weigh`: what hangs against a scale."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.cli.calling import RIG, TINY, call, refused

HEIGHTS_CM = (60, 82, 86, 90, 94, 98, 102, 106)
"""Away from where the chain leaves the floor: there a weighing expects the mean over many heaps,
and `curve` says what one average heap does."""


def predicted(*words: str, heights_cm: tuple[int, ...] = HEIGHTS_CM) -> dict[int, float]:
    """Load [kg] by height [cm] of a rig as described, from `curve`."""
    at = [word for cm in heights_cm for word in ("--at", f"{cm}cm")]
    rows = call("curve", *words, *at, "--json").json["loads"]
    return {round(row["height"]["m"] * 100): row["raising"]["kg"] for row in reversed(rows)}


def readings(loads: dict[int, float], end: str = "up") -> list[str]:
    """Type loads as readings."""
    return [word for cm, kg in loads.items() for word in ("--reading", f"{cm}cm={kg:.2f}kg:{end}")]


def weighed(*words: str) -> Any:
    """What `weigh` says, as JSON."""
    done = call("weigh", *words, "--json")
    assert done.code == 0, done.err
    return done.json


def test_a_rig_as_described_agrees() -> None:
    view = weighed(*RIG, *readings(predicted(*RIG)))
    assert view["outcome"] == "agrees"
    assert view["worst"]["kg"] == pytest.approx(0, abs=0.006)
    assert view["causes"] == []
    names = [row["name"] for row in view["numbers"]]
    assert "chain, mass per length" in names
    assert all(row["fitted"]["standard_uncertainty"] > 0 for row in view["numbers"])


def test_the_ring_that_was_taken_is_named() -> None:
    """Weighed on ring 1 (56 cm), described as ring 3 (64 cm)."""
    hung = [word.replace("strap:2", "strap:1") for word in RIG]
    told = [word.replace("strap:2", "strap:3") for word in RIG]
    heights_cm = (60, 66, 70, 74, 78, 84, 90, 96, 102, 106)
    view = weighed(*told, *readings(predicted(*hung, heights_cm=heights_cm)))
    assert view["outcome"] in {"cause", "causes"}
    first = view["causes"][0]
    assert first["likely"]
    assert "on ring 1 (56.0 cm) instead of ring 3" in first["what"]
    assert "on both ends" in first["what"]
    assert first["what_to_do"]
    assert view["mended"]


def test_a_single_bad_reading_is_picked_out() -> None:
    loads = predicted(*RIG)
    loads[94] += 5.0
    done = call("weigh", *RIG, *readings(loads))
    assert done.code == 0
    (marked,) = [line for line in done.out.splitlines() if line.endswith("OFF")]
    assert marked.split()[0] == "94.0"
    assert "Likely cause" in done.out
    assert "Not used for the fit: reading 5." in " ".join(done.out.split())


def test_readings_in_pounds_say_the_same() -> None:
    loads = predicted(*RIG)
    pounds = [
        word
        for cm, kg in loads.items()
        for word in ("--reading", f"{cm / 2.54:.4f}in={kg / 0.45359237:.3f}lb:up")
    ]
    view = weighed(*RIG, *pounds, "--units", "lb")
    assert view["outcome"] == "agrees"
    assert view["readings"][0]["reading"]["shown"].endswith(" lb")
    assert abs(view["worst"]["kg"]) < 0.01


@pytest.mark.parametrize(
    ("header", "between", "decimal"),
    [
        ("height [cm],mass [kg],way", ",", "."),
        ("Height (cm);Load (kg);Direction", ";", ","),
        ("height_cm\treading_kg\tway", "\t", "."),
    ],
)
def test_a_csv_file_reads_like_typed_readings(
    tmp_path: Path, header: str, between: str, decimal: str
) -> None:
    loads = predicted(*RIG)
    lines = [
        between.join((str(cm), f"{kg:.2f}".replace(".", decimal), "up")) for cm, kg in loads.items()
    ]
    path = tmp_path / "scale.csv"
    path.write_text("\n".join(["# weighed on a Monday", header, "", *lines]), encoding="utf-8-sig")
    assert weighed(*RIG, "--readings", str(path)) == weighed(*RIG, *readings(loads))


def test_cells_may_carry_their_own_units(tmp_path: Path) -> None:
    path = tmp_path / "scale.csv"
    rows = [f"{cm} cm,{kg:.2f} kg" for cm, kg in predicted(*RIG).items()]
    path.write_text("\n".join(["height,mass", *rows]))
    assert weighed(*RIG, "--readings", str(path))["outcome"] == "agrees"


def test_a_scale_under_one_end_sees_half() -> None:
    halves = {cm: kg / 2 for cm, kg in predicted(*RIG).items()}
    view = weighed(*RIG, *readings(halves), "--carries", "left")
    assert view["outcome"] == "agrees"


def test_a_scale_zeroed_with_the_bare_bar_sees_the_chain() -> None:
    hung = {cm: kg - 65 for cm, kg in predicted(*RIG).items()}
    assert weighed(*RIG, *readings(hung), "--bare", "0kg")["outcome"] == "agrees"
    loads = {cm: kg + 3 for cm, kg in predicted(*RIG).items()}
    assert weighed(*RIG, *readings(loads), "--bare", "68kg")["outcome"] == "agrees"


def test_the_lifters_heights_mark_what_lies_outside() -> None:
    view = weighed(*RIG, *readings(predicted(*RIG)), "--lifter", "Ansa")
    outside = [row["height"]["m"] for row in view["readings"] if row["outside_the_lift"]]
    assert outside == [0.6]


def test_a_rig_from_the_search_is_weighed(tmp_path: Path) -> None:
    found = call("rig", "--gym", TINY, "--bottom", "65kg", "--top", "85kg", "--json")
    path = tmp_path / "rig.json"
    path.write_text(found.out, encoding="utf-8")
    points = [(p["height"]["m"], p["raising"]["kg"]) for p in found.json["curve"][9::3]]
    typed = [w for m, kg in points for w in ("--reading", f"{m}m={kg:.2f}kg:up")]
    view = weighed("--gym", TINY, "--rig", str(path), *typed)
    assert view["outcome"] == "agrees"
    assert abs(view["worst"]["kg"]) < 0.01


def test_dangers_are_said_before_the_readings() -> None:
    words = ["snap hook" if word == "screw link" else word for word in RIG]
    done = call("weigh", *words, *readings(predicted(*words)))
    assert done.out.index("STOP") < done.out.index("Readings")


def test_terminal_fits_and_shows_the_verdict() -> None:
    done = call("weigh", *RIG, *readings(predicted(*RIG)))
    assert done.code == 0
    assert "agree within 0.0 kg" in done.out
    assert max(len(line) for line in done.out.splitlines()) <= 80


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("70cm", "Not a reading"),
        ("70cm=", "Not a mass"),
        ("70cm=90kg:sideways", "Not a reading"),
        ("70cm=90", "Not a mass"),
        ("70kg=90kg", "Unknown unit 'kg' for a length"),
        ("70cm=-3kg", "must not be negative"),
        ("9m=90kg", "No bar is weighed that high"),
    ],
)
def test_readings_that_are_none(text: str, said: str) -> None:
    refused(call("weigh", *RIG, "--reading", text), said, "--reading")


@pytest.mark.parametrize(
    ("text", "said", "where"),
    [
        ("", "There are no readings in the file", "scale.csv"),
        ("66,80.6\n70,81", "The columns have no names", "line 1"),
        ("height [stone],mass [kg]\n70,81", "A column that can't be told", "line 1"),
        ("height [cm],mass [kg],mass [lb]\n70,81,9", "A column that can't be told", "line 1"),
        ("height [cm],mass [kg]\n70,81\n75,heavy", "Not a mass", "line 3"),
        ("height [cm],mass [kg]\n70", "Not a mass", "line 2"),
        ("height [cm],mass [kg],way\n70,81,over", "Not a way", "line 2"),
        ("height [cm],mass [kg]", "No such number of readings", "scale.csv"),
        ('height [cm],mass [kg]\n"70,81', "Not a CSV file", "scale.csv"),
        ("height [cm],mass [kg]\n" + "70,81\n" * 201, "No such number of readings", "201"),
    ],
)
def test_csv_files_that_hold_no_readings(tmp_path: Path, text: str, said: str, where: str) -> None:
    path = tmp_path / "scale.csv"
    path.write_text(text)
    refused(call("weigh", *RIG, "--readings", str(path)), said, where)


def test_files_that_can_not_be_read(tmp_path: Path) -> None:
    refused(call("weigh", *RIG, "--readings", str(tmp_path / "no.csv")), "There is no such file")
    refused(call("weigh", *RIG, "--readings", str(tmp_path)), "can't be read")
    (tmp_path / "bytes.csv").write_bytes(b"\xff\xfe\x00")
    refused(call("weigh", *RIG, "--readings", str(tmp_path / "bytes.csv")), "not UTF-8")


def test_too_few_readings_or_none() -> None:
    refused(call("weigh", *RIG), "No readings of the scale", "--readings FILE")
    refused(call("weigh", *RIG, "--reading", "70cm=80kg"), "Too few readings")


def test_what_the_scale_carries_is_one_of_six() -> None:
    refused(
        call("weigh", *RIG, "--reading", "70cm=80kg", "--carries", "me"), "carries", "floor left"
    )


def test_a_ring_with_an_odd_name_is_named_as_it_is(tmp_path: Path) -> None:
    """Braces in a name are no places of amounts."""
    gym = tmp_path / "odd.toml"
    text = Path(TINY).read_text(encoding="utf-8")
    gym.write_text(text.replace('["1", "2", "3"]', '["{a}", "b{}", "3"]'), encoding="utf-8")
    heights_cm = (60, 66, 70, 74, 78, 84, 90, 96, 102, 106)
    loads = predicted(*[word.replace("strap:2", "strap:1") for word in RIG], heights_cm=heights_cm)
    told = [word.replace("strap:2", "strap:3").replace(TINY, str(gym)) for word in RIG]
    assert "on {a} (56.0 cm) instead of ring 3" in weighed(*told, *readings(loads))["verdict"]
