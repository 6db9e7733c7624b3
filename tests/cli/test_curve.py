"""`topheavy curve`: the load at any height of a rig that somebody describes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import RIG, TINY, Called, call, refused
from topheavy.units import KG_PER_LB, M_PER_IN

if TYPE_CHECKING:
    from pathlib import Path

BENCH = ("--bottom", "66cm", "--top", "107cm")
FREE = ("--chain", "32 x 5/8 in", "--straight", "80kg")
DENSITY_KG_PER_M, PITCH_M = 5.3, 0.056
"""5/8 in chain without a mark: DIN 764, 16 x 56 mm, as printed."""


def loads_kg(done: Called) -> dict[str, float]:
    """Load raising [kg] by place, or by height in metres."""
    return {
        row["place"] or f"{row['height']['m']:g}": row["raising"]["kg"]
        for row in done.json["loads"]
    }


def test_straight_chain_weighs_what_hangs_above_its_pile() -> None:
    """One strand a side: 2 x density x (height - pile), the pile a quarter of a pitch."""
    done = call("curve", *FREE, "--hang", "straight", "--at", "50cm", "--json")
    expected_kg = 80 + 2 * DENSITY_KG_PER_M * (0.50 - 0.25 * PITCH_M)
    assert loads_kg(done)["0.5"] == pytest.approx(expected_kg, abs=1e-6)


def test_doubled_chain_picks_up_twice_from_the_feeders_length() -> None:
    """Two strands a side from the fold down: 4 x density x (height - feeder - pile)."""
    done = call("curve", *FREE, "--feeder", "62cm", "--at", "107cm", "--json")
    expected_kg = 80 + 4 * DENSITY_KG_PER_M * (1.07 - 0.62 - 0.25 * PITCH_M)
    assert loads_kg(done)["1.07"] == pytest.approx(expected_kg, abs=1e-6)


def test_feeder_and_connector_weigh_with_their_own_facts() -> None:
    """A feeder of 0.3 kg/m hung 40 cm clear adds 0.7 m x 0.3 kg/m; the connector adds 175 g."""
    bare = call("curve", *FREE, "--feeder", "62cm", "--at", "1.0m", "--json")
    told = call(
        "curve", *FREE, "--feeder", "55 cm, 0.21 kg, whole 70 cm", "--connector", "175 g, 7 cm",
        "--at", "1.0m", "--json",
    )  # fmt: skip
    more_kg = loads_kg(told)["1"] - loads_kg(bare)["1"]
    assert more_kg == pytest.approx(2 * (0.21 + 0.175), abs=1e-6)


def test_a_piece_more_adds_its_own_curve() -> None:
    once = call("curve", *FREE, "--feeder", "62cm", *BENCH, "--json")
    twice = call("curve", *FREE, "--chain", "32 x 5/8 in", "--feeder", "62cm", *BENCH, "--json")
    for place in ("bottom", "top"):
        hung_kg = loads_kg(once)[place] - 80
        assert loads_kg(twice)[place] - 80 == pytest.approx(2 * hung_kg, abs=1e-6)


def test_two_hangs_on_one_end_add() -> None:
    def hung_kg(*chains: str) -> float:
        words = [word for chain in chains for word in ("--chain", chain)]
        done = call("curve", *words, "--straight", "80kg", "--at", "1m", "--json")
        return loads_kg(done)["1"] - 80

    high, low = "32 x 5/8 in on 50cm", "20 x 1/2 in on 70cm"
    assert hung_kg(high, low) == pytest.approx(hung_kg(high) + hung_kg(low), abs=1e-6)
    assert hung_kg(high) > hung_kg("32 x 5/8 in on 60cm") > hung_kg("32 x 5/8 in on 70cm") > 0


def test_weighed_and_taped_chain_weighs_what_the_scale_said() -> None:
    """With all of it off the floor, each end carries just the 9.5 kg of its piece."""
    done = call(
        "curve", "--chain", "32 links, 593 mm over ten links, 9.5 kg", "--hang", "straight",
        "--straight", "80kg", "--at", "2.2m", "--json",
    )  # fmt: skip
    assert loads_kg(done)["2.2"] == pytest.approx(80 + 2 * 9.5, abs=1e-6)


def test_draped_chain_hangs_over_the_bar() -> None:
    done = call("curve", *FREE, "--hang", "draped", "--at", "60cm", "--json")
    expected_kg = 80 + 4 * DENSITY_KG_PER_M * (0.60 - 0.25 * PITCH_M)
    assert loads_kg(done)["0.6"] == pytest.approx(expected_kg, abs=1e-6)


def test_a_mat_lifts_the_floor() -> None:
    plain = call("curve", *FREE, "--feeder", "62cm", "--at", "1.00m", "--json")
    mat = call("curve", *FREE, "--feeder", "62cm", "--mat", "2cm", "--at", "1.02m", "--json")
    assert loads_kg(mat)["1.02"] == pytest.approx(loads_kg(plain)["1"], abs=1e-6)


def test_slack_laid_out_adds_load_and_pulls_aside() -> None:
    piled = call("curve", *FREE, "--feeder", "62cm", *BENCH, "--json")
    dragged = call("curve", *FREE, "--feeder", "62cm", *BENCH, "--dragged", "--json")
    rough = call(
        "curve", *FREE, "--feeder", "62cm", *BENCH, "--dragged", "--friction", "1", "--json"
    )
    assert loads_kg(piled)["top"] < loads_kg(dragged)["top"] < loads_kg(rough)["top"]
    assert piled.json["over_the_lift"]["side_pull"] is None
    assert dragged.json["over_the_lift"]["side_pull"]["N"] > 10
    assert any("sideways" in caution for caution in dragged.json["cautions"])


def test_pieces_of_the_gym_hang_by_their_tags() -> None:
    done = call("curve", *RIG, "--lifter", "Ansa", "--json")
    view = done.json
    assert view["title"] == "Ansa, bench press, the bench"
    assert [row["place"] for row in view["loads"]] == ["top", "mean", "bottom"]
    assert view["hang_left"] == [
        "A1 + A2 (5/8 in, 32 links), folded on strap, ring 2 (60.0 cm), in screw link"
    ]
    assert view["straight_weight"]["kg"] == 65
    assert view["over_the_lift"]["share_of_best"]["fraction"] == pytest.approx(
        (loads_kg(done)["top"] - loads_kg(done)["bottom"]) / 100, abs=1e-9
    )
    (links,) = view["links"]
    assert links["tags"] == ["A1", "A2", "A3", "A4"]
    assert links["off_top"] + links["on_top"] == links["links"] == 32


def test_loads_are_told_as_a_found_rig_tells_them(tmp_path: Path) -> None:
    """The same order of rows, the same doubts, nothing lowered at the top."""
    found = call("rig", "--gym", RIG[1], "--bottom", "65kg", "--top", "84kg", "--json")
    kept = tmp_path / "rig.json"
    kept.write_text(found.out)
    told = call("curve", "--gym", RIG[1], "--rig", str(kept), "--json").json["loads"]
    for row, other in zip(found.json["loads"], told, strict=True):
        assert row["place"] == other["place"]
        for way in ("raising", "lowering"):
            assert (row[way] or {}).get("shown") == (other[way] or {}).get("shown")


def test_heights_typed_go_before_the_lifters() -> None:
    done = call("curve", *RIG, "--lifter", "Ansa", "--top", "100cm", "--json")
    heights_m = {row["place"]: row["height"]["m"] for row in done.json["loads"] if row["height"]}
    assert heights_m == {"top": 1.0, "bottom": 0.66}


def test_plates_and_bar_make_the_straight_weight() -> None:
    def straight_kg(*words: str) -> float:
        done = call("curve", *RIG[:10], *words, "--at", "70cm", "--json")
        weight: float = done.json["straight_weight"]["kg"]
        return weight

    assert straight_kg() == 25
    assert straight_kg("--plates", "20kg + 2x5kg") == 25 + 2 * 30
    assert straight_kg("--bar", "15kg", "--plates", "10kg") == 35
    assert straight_kg("--bar", "bar", "--straight", "70kg") == 70
    assert straight_kg("--straight", "60%", "--lifter", "Ansa") == 60


def test_a_load_is_reached_where_the_curve_passes_it() -> None:
    reach = ("--reach", "90kg", "--reach", "60kg", "--reach", "900kg")
    done = call("curve", *FREE, "--feeder", "62cm", *BENCH, *reach, "--json")
    found, always, never = done.json["reached"]
    height_m = found["raising"]["m"]
    again = call("curve", *FREE, "--feeder", "62cm", "--at", f"{height_m}m", "--json")
    assert list(loads_kg(again).values()) == pytest.approx([90], abs=1e-4)
    assert found["lowering"]["m"] > height_m
    assert 0.002 < found["raising"]["standard_uncertainty"] < 0.1
    assert "at every height" in always["words"]
    assert "never reached" in never["words"]
    assert always["raising"] is None
    assert never["raising"] is None


def test_pounds_and_kilograms_say_the_same() -> None:
    words = ("curve", *FREE, "--feeder", "62cm", *BENCH, "--json")
    metric, pounds = call(*words).json, call(*words, "--units", "lb").json
    for one, other in zip(metric["loads"], pounds["loads"], strict=True):
        assert one["raising"]["kg"] == other["raising"]["kg"]
        kg, lb = (float(row["raising"]["shown"].split()[0]) for row in (one, other))
        assert other["raising"]["shown"].endswith(" lb")
        assert lb == pytest.approx(kg / KG_PER_LB, abs=0.2)
    inches = float(pounds["loads"][0]["height"]["shown"].split()[0])
    assert inches == pytest.approx(1.07 / M_PER_IN, abs=0.06)


def test_the_terminal_shows_what_the_json_says() -> None:
    words = ("curve", *RIG, "--lifter", "Ansa", "--at", "80cm", "--reach", "75kg")
    shown, view = call(*words), call(*words, "--json").json
    assert shown.code == 0
    text = " ".join(shown.out.split())
    for row in view["loads"]:
        assert row["raising"]["shown"] in text
    for fact in ("share_of_top", "deload", "imbalance"):
        assert view["over_the_lift"][fact]["shown"] in text
    assert view["reached"][0]["words"] in text
    assert max(len(line) for line in shown.out.splitlines()) <= 80


def test_single_heights_need_no_lift() -> None:
    view = call("curve", *FREE, "--feeder", "62cm", "--at", "80cm", "--at", "70cm", "--json").json
    assert [row["height"]["m"] for row in view["loads"]] == [0.8, 0.7]
    assert view["over_the_lift"] is None
    assert view["curve"] == []
    assert not any("never leaves the floor" in caution for caution in view["cautions"])


def test_unequal_ends_are_read_and_warned_of() -> None:
    words = ("--left", "A1+A2", "--right", "A3", "--feeder", "strap:2")
    view = call("curve", "--gym", TINY, *words, "--lifter", "Ansa", "--json").json
    assert view["over_the_lift"]["imbalance"]["kg"] > 2
    assert any("the left is the heavier" in caution for caution in view["cautions"])
    low = call("curve", "--gym", TINY, *words, "--at", "30cm", "--json").json
    assert any("more lies ready on the left end" in caution for caution in low["cautions"])


def test_one_bare_end_is_read_and_warned_of() -> None:
    words = ("--left", "none", "--right", "A3", "--feeder", "strap:2", "--lifter", "Ansa")
    view = call("curve", "--gym", TINY, *words, "--json").json
    assert view["hang_left"] == ["nothing"]
    assert any("the right is the heavier" in caution for caution in view["cautions"])


def test_what_must_come_down_is_said_first() -> None:
    """An unrated hook, an overloaded clip and a retired piece hang here already."""
    done = call(
        "curve", "--gym", TINY, "--left", "A1 on strap:1 with snap hook",
        "--right", "R1 on strap:1 with toy clip", "--lifter", "Ansa",
    )  # fmt: skip
    assert done.code == 0
    stop = done.out.index("STOP: not safe as described")
    assert stop < done.out.index("What hangs")
    said = " ".join(done.out[stop : done.out.index("What hangs")].split())
    assert "R1 is retired (a link is bent): take it down." in said
    assert "No rating is known for snap hook" in said
    assert "toy clip carries 9.5 kg and is rated 20.0 kg: with a design factor of 4 no" in said
    assert "no more than 5.0 kg may hang from it. Take it down." in said


def test_a_smaller_design_factor_lets_the_clip_pass() -> None:
    words = ("--left", "A1", "--right", "A2", "--feeder", "strap:1", "--connector", "toy clip")
    call_of = ("curve", "--gym", TINY, *words, "--at", "70cm", "--json")
    assert call(*call_of).json["dangers"]
    assert not call(*call_of, "--design-factor", "2").json["dangers"]


def test_ratings_nobody_stated_are_asked_for() -> None:
    view = call("curve", *FREE, "--feeder", "62cm", "--at", "70cm", "--json").json
    assert view["dangers"] == []
    assert any(
        "No rating was stated for the feeder and the connector" in text for text in view["cautions"]
    )
    rated = ("--feeder", "62cm, rated 250 kg", "--connector", "175 g, 72 mm, rated 850 kg")
    view = call("curve", *FREE, *rated, "--at", "70cm", "--json").json
    assert not any("rating was stated" in text for text in view["cautions"])


def test_chain_too_thin_to_matter_is_said_to_be() -> None:
    view = call(
        "curve", "--gym", TINY, "--left", "H1", "--right", "H2", "--feeder", "strap:2",
        "--lifter", "Ansa", "--json",
    ).json  # fmt: skip
    assert any("1/4 in chain is too thin to matter" in text for text in view["cautions"])


def test_a_lift_brings_its_own_cautions_and_heights() -> None:
    words = ("curve", *FREE, "--feeder", "62cm", "--lift", "overhead press")
    refused(call(*words, *BENCH), "No human overhead press has its bottom", "got    66cm = 0.66 m")
    view = call(*words, "--bottom", "143cm", "--top", "212cm", "--json").json
    assert any("over the head" in caution for caution in view["cautions"])


def test_a_found_rig_is_read_again_through_a_pipe() -> None:
    found = call("rig", "--gym", TINY, "--bottom", "65kg", "--top", "85kg", "--json")
    again = call("curve", "--gym", TINY, "--rig", "-", "--at", "80cm", "--json", stdin=found.out)
    rig_kg = {row["place"]: row["raising"]["kg"] for row in found.json["loads"]}
    curve_kg = loads_kg(again)
    assert {place: curve_kg[place] for place in rig_kg} == pytest.approx(rig_kg, abs=1e-6)
    assert again.json["title"] == found.json["title"]


def test_a_load_above_the_best_is_said_first_and_one_below_is_not() -> None:
    words = ("curve", *RIG, "--lift", "bench", *BENCH, "--json")
    assert "Too heavy by the numbers" in call(*words, "--best", "60kg").json["cautions"][0]
    assert not any("Too heavy" in said for said in call(*words, "--best", "160kg").json["cautions"])
