"""`--rig FILE`: a rig out of what `topheavy rig --json` printed."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from tests.cli.calling import TINY, call, refused

if TYPE_CHECKING:
    from pathlib import Path

PARTS = {
    "gym": "The Shed",
    "left": "A1+A2",
    "right": "A3+A4",
    "hang": "doubled",
    "feeder": "strap:2",
    "connector": "screw link",
    "straight": "65 kg",
    "lifter": "Ansa",
    "lift": "bench press",
    "station": "the bench",
    "slack": "piled",
}
CURVE = ("curve", "--gym", TINY, "--rig")


@pytest.fixture
def rig(tmp_path: Path) -> Path:
    path = tmp_path / "rig.json"
    path.write_text(json.dumps({"described": PARTS}))
    return path


def test_the_file_says_what_the_options_would(rig: Path) -> None:
    typed = call(
        "curve", "--gym", TINY, "--left", "A1+A2", "--right", "A3+A4", "--feeder", "strap:2",
        "--connector", "screw link", "--straight", "65kg", "--lifter", "Ansa", "--json",
    )  # fmt: skip
    assert call(*CURVE, str(rig), "--json").json == typed.json


def test_options_typed_besides_go_first(rig: Path) -> None:
    view = call(
        *CURVE, str(rig), "--feeder", "strap:3", "--straight", "45kg", "--lift", "squat",
        "--station", "the rack", "--json",
    ).json  # fmt: skip
    assert view["title"] == "Ansa, squat, the rack"
    assert view["straight_weight"]["kg"] == 45
    assert "ring 3" in view["hang_left"][0]


def test_slack_laid_out_and_a_bare_end_come_along(rig: Path) -> None:
    rig.write_text(json.dumps({"described": {**PARTS, "slack": "dragged", "right": "none"}}))
    view = call(*CURVE, str(rig), "--json").json
    assert view["hang_right"] == ["nothing"]
    assert "laid out to the side" in view["surface"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "Not valid JSON"),
        ("{", "line 1, column 2"),
        ("[]", "There is no rig in the file"),
        ('{"described": 3}', "There is no rig in the file"),
        (json.dumps({"described": {**PARTS, "left": 3}}), "has no left"),
        (json.dumps({"described": {"gym": "The Shed"}}), "has no left"),
        (json.dumps({"described": {**PARTS, "left": "Z9"}}), "No chain piece 'Z9'"),
        (json.dumps({"described": {**PARTS, "hang": "sideways"}}), "Unknown way to hang"),
        (json.dumps({"described": {**PARTS, "gym": "The Hall"}}), "of another gym"),
        ("[" * 100_000, "Not valid JSON"),
        ("1" * 10_000, "JSON"),
    ],
)
def test_files_that_hold_no_rig(rig: Path, text: str, said: str) -> None:
    rig.write_text(text)
    done = call(*CURVE, str(rig))
    if said == "JSON":
        assert done.code == 2
    else:
        refused(done, said)


def test_files_that_can_not_be_read(tmp_path: Path) -> None:
    refused(call(*CURVE, str(tmp_path / "no.json")), "There is no such file", "no.json")
    refused(call(*CURVE, str(tmp_path)), "can't be read")
    (tmp_path / "bytes").write_bytes(b"\xff\xfe\x00")
    refused(call(*CURVE, str(tmp_path / "bytes")), "not text")


def test_a_rig_is_described_once(rig: Path) -> None:
    refused(call(*CURVE, str(rig), "--left", "A1"), "described twice", "--rig")
