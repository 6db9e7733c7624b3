"""Slips that a coach makes, weighed at the demo gym: readings from `curve`, with noise."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from tests.cli.calling import call

HEIGHTS_CM = (66, 72, 78, 84, 90, 96, 102, 107)
REST = ("--straight", "80kg", "--lifter", "Osric")
SEEDS = range(3)


def hung(left: int, right: int, *, left_pieces: str = "A1+A2") -> tuple[str, ...]:
    """Two pieces an end on these rings of the demo gym's strap."""
    on = "on ring strap:{} with 10 mm screw link"
    ends = (f"{left_pieces} {on.format(left)}", f"A3+A4 {on.format(right)}")
    return ("--left", ends[0], "--right", ends[1], *REST)


def weighed(told: tuple[str, ...], true: tuple[str, ...], seed: int) -> Any:
    """What `weigh` says of readings raising, each off by some 0.05 kg."""
    at = [word for cm in HEIGHTS_CM for word in ("--at", f"{cm}cm")]
    rows = call("curve", *true, *at, "--json").json["loads"]
    loads = {
        round(row["height"]["m"] * 100): row["raising"]["kg"]
        for row in rows
        if row["height"] is not None and row["raising"] is not None
    }
    noise = 0.05 * np.random.default_rng(seed).standard_normal(len(HEIGHTS_CM))
    readings = [
        word
        for cm, off in zip(HEIGHTS_CM, noise, strict=True)
        for word in ("--reading", f"{cm}cm={loads[cm] + off:.2f}kg:up")
    ]
    done = call("weigh", *told, *readings, "--json")
    assert done.code == 0, done.err
    return done.json


def likely(view: Any) -> list[str]:
    return [cause["what"] for cause in view["causes"] if cause["likely"]]


def fitted_m(view: Any, name: str) -> float:
    (row,) = [row for row in view["numbers"] + view["leaning"] if row["name"] == name]
    return float(row["fitted"]["m"])


@pytest.mark.parametrize("seed", SEEDS)
def test_another_ring_at_both_ends(seed: int) -> None:
    """4 cm on eight strands of 5.3 kg/m: 1.7 kg. A pile can't be so far below its rule."""
    view = weighed(hung(7, 7), hung(6, 6), seed)
    assert view["outcome"] in {"shifted", "causes", "cause"}
    assert "1.7 kg more than predicted from 78.0 cm up" in view["verdict"]
    assert likely(view)[0].startswith("The feeder is on ring 6 (62.0 cm) instead of ring 7")
    assert "both ends" in likely(view)[0]
    assert fitted_m(view, "pile, height, raising") > 0


@pytest.mark.parametrize("seed", SEEDS)
def test_a_mat_that_was_not_counted(seed: int) -> None:
    """3 cm on eight strands: 1.3 kg. A high pile does the same, so both are named."""
    told = hung(7, 7)
    view = weighed(told, (*told, "--mat", "3cm"), seed)
    assert view["outcome"] == "shifted"
    assert "do not agree: 1.3 kg less than predicted from 78.0 cm up" in view["verdict"]
    assert "as if the floor under the chain were 3." in view["verdict"]
    assert "or the feeder so much longer" in view["verdict"]
    named = " ".join(likely(view))
    assert "The chain lies 3.0 cm higher than stated: a mat" in named
    assert "The pile stands" in named
    assert "What hangs sits 3." in named


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("told", [6, 7])
def test_another_ring_at_one_end(told: int, seed: int) -> None:
    """Four strands of 5.3 kg/m on ring 4 instead of 6 or 7: 1.7 or 2.5 kg."""
    view = weighed(hung(told, told), hung(told, 4), seed)
    assert view["outcome"] in {"shifted", "causes"}
    assert "more than predicted" in view["verdict"]
    ring = f"The feeder is on ring 4 (54.0 cm) instead of ring {told}"
    (named,) = [what for what in likely(view) if what.startswith(ring)]
    assert named.endswith("on one end, left or right.")


@pytest.mark.parametrize("seed", SEEDS)
def test_a_missing_piece_is_named_once(seed: int) -> None:
    """A1 and A2 are both of 32 links, and a scale under the bar does not know left from right."""
    told = hung(7, 7)
    view = weighed(told, hung(7, 7, left_pieces="A1"), seed)
    assert view["outcome"] == "cause"
    assert likely(view) == ["A piece of 32 links is missing from one end, left or right."]
    assert "growing to 3." in view["verdict"]
    said = [cause["what"] for cause in view["causes"]]
    assert len(said) == len(set(said))


@pytest.mark.parametrize("seed", SEEDS)
def test_a_rig_as_told_agrees(seed: int) -> None:
    told = hung(7, 7)
    assert weighed(told, told, seed)["outcome"] == "agrees"


def test_help_asks_for_no_more_readings_than_its_examples_give() -> None:
    said = " ".join(call("weigh", "--help").out.split())
    assert "Three readings show whether the load is right" in said
    assert "Six or more readings over" not in said
