"""What was typed: sizes in the gym's words, names that are empty, rules that contradict."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.calling import RIG, TINY, call, refused

ASK = ("rig", "--gym", TINY, "--bottom", "65kg", "--top", "84kg")
FREE = ("curve", "--chain", "32 x 5/8 in", "--feeder", "62cm")


@pytest.mark.parametrize("size", ["5/8in", "5/8", '5/8"', "5/8 IN", "16mm", "0.625 in"])
def test_a_size_is_found_however_it_is_typed(size: str) -> None:
    named = call(*ASK, "--size", "5/8 in", "--json").json
    assert call(*ASK, "--size", size, "--json").json == named


@pytest.mark.parametrize("size", ["1 in", "3/8", "thick", "", "-16mm"])
def test_a_size_that_is_not_owned_is_refused_with_those_that_are(size: str) -> None:
    refused(call(*ASK, "--size", size), "no chain of that size", "where  --size", "5/8 in, 1/4 in")


@pytest.mark.parametrize("option", ["--lifter", "--station"])
def test_an_empty_name_is_a_mistake(option: str) -> None:
    refused(call(*ASK, option, ""), "no name in it", f"where  {option}")
    refused(call("curve", *RIG, "--at", "70cm", option, " "), "no name in it", option)


def test_the_help_says_who_lifts_when_nobody_is_named() -> None:
    assert "Without it: the first measured for the lift" in " ".join(
        call("rig", "--help").out.split()
    )


def test_links_down_and_all_clear() -> None:
    refused(call(*ASK, "--links-down", "-1"), "where  --links-down", "-1")
    refused(call(*ASK, "--links-down", "2", "--all-clear"), "one of the two", "--all-clear")
    usual = call(*ASK, "--json").json
    assert call(*ASK, "--links-down", "1", "--json").json == usual
    assert "a link of every strand left on the floor" in usual["wanted"]
    assert "strand" not in call(*ASK, "--links-down", "0", "--json").json["wanted"]


@pytest.mark.parametrize("option", ["--bottom", "--top", "--mean", "--straight", "--within"])
def test_a_negative_load_is_called_one(option: str) -> None:
    done = call("rig", "--gym", TINY, "--chain", "20%", option, "-50kg")
    refused(done, "must not be negative", f"where  {option}", "'-50kg'")
    refused(call(*FREE, "--at", "70cm", "--straight", "-50kg"), "must not be negative")


def test_one_point_is_no_curve() -> None:
    refused(call("rig", "--gym", TINY, "--follow", "70cm=60kg"), "no curve", "two points or more")


@pytest.mark.parametrize(
    ("command", "option", "name", "said"),
    [
        ("rig", "--card", "nofolder/x.pdf", "no such folder"),
        ("rig", "--card", "x.txt", "ends in .pdf"),
        ("rig", "--card", "", "no file name"),
        ("rig", "--picture", "nofolder/x.svg", "no such folder"),
        ("rig", "--picture", "x.gif", "ends in .svg or .png"),
        ("card", "--out", "nofolder/x.pdf", "no such folder"),
        ("card", "--out", "x.txt", "ends in .pdf"),
    ],
)
def test_a_place_that_can_not_be_written_is_refused_before_the_search(
    command: str,
    option: str,
    name: str,
    said: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The target is none: had the search begun, that would be the complaint."""
    monkeypatch.chdir(tmp_path)
    ask = ("--gym", TINY, "--bottom", "80kg", "--top", "70kg")
    refused(call(command, *ask, option, name), said, f"where  {option}")
    assert not list(tmp_path.iterdir())


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    (tmp_path / "card.pdf").mkdir()
    refused(call(*ASK, "--card", str(tmp_path / "card.pdf")), "That is a folder")


def test_with_unrated_connectors_only_they_are_named(tmp_path: Path) -> None:
    lines = Path(TINY).read_text(encoding="utf-8").splitlines()
    head = lines.index("[[connector]]")
    kept, inside = lines[:head], True
    for line in lines[head:]:
        inside = line == "[[connector]]" if line.startswith("[") else inside
        if not (inside and line.startswith("rating")):
            kept.append(line)
    mine = tmp_path / "mine.toml"
    mine.write_text("\n".join(kept), encoding="utf-8")
    done = call("rig", "--gym", str(mine), "--bottom", "65kg", "--top", "84kg")
    refused(done, "Nothing to hang", "connector screw link: no rating marked")
    assert "connector screw link: no rating marked" in " ".join(
        call("gym", "check", str(mine)).out.split()
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("catalogue", "--wire", "-5mm"), ("--wire must be above zero", "-5mm = -0.005 m")),
        (("catalogue", "--wire", "-5mm", "--outside", "592mm"), ("where  --wire", "got    -5 mm")),
        (
            (*ASK, "--most-pieces", "0"),
            ("--most-pieces must be above zero", "where  --most-pieces"),
        ),
        ((*ASK, "--design-factor", "0.5"), ("where  --design-factor", "0.5")),
        ((*FREE, "--bottom", "42in", "--top", "26in"), ("--bottom and --top", "bottom 42in")),
        ((*FREE, "--bottom", "26in", "--top", "160in"), ("where  --top", "160in = 4.064 m")),
        ((*FREE, "--at", "70cm", "--lift", "curl"), ("where  --lift", "'curl'")),
    ],
)
def test_mistakes_are_told_by_option_and_as_typed(
    words: tuple[str, ...], said: tuple[str, ...]
) -> None:
    done = call(*words)
    refused(done, *said)
    assert "_" not in done.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ("rig", "--gym", TINY, "--follow", "30in=140lb", "--follow", "90in=185lb"),
            ("where  --follow", "90in=185lb = 2.286 m", "(26.0 to 42.1 in)"),
        ),
        (
            (*FREE, "--straight", "140lb", "--at", "30in", "--at", "30ft"),
            ("where  --at", "got    30ft = 9.144 m", "0 to 2.9 m (0.0 to 114.2 in)"),
        ),
        (
            (*FREE, "--lift", "bench", "--straight", "140lb", "--bottom", "5in", "--top", "40in"),
            ("where  --bottom", "got    5in = 0.127 m", "0.35 to 0.95 m (13.8 to 37.4 in)"),
        ),
        (
            ("rig", "--gym", TINY, "--bottom", "150lb", "--top", "140lb"),
            ("--bottom and --top", "bottom 150lb, top 140lb = bottom 68.0 kg"),
        ),
        (
            ("rig", "--gym", TINY, "--straight", "143.7lb", "--chain", "20%"),
            ("where  --straight", "143.7lb = 65.1812 kg", "65 kg (143.3 lb)"),
        ),
        (
            ("rig", "--gym", TINY, "--straight", "65.2kg", "--chain", "20%", "--units", "lb"),
            ("where  --straight", "got    65.2 kg", "65 kg (143.3 lb)"),
        ),
    ],
)
def test_pounds_and_inches_are_answered_in_kind(
    words: tuple[str, ...], said: tuple[str, ...]
) -> None:
    refused(call(*words), *said)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("rig", "--gym", TINY, "--straight", "65.2kg", "--chain", "20%"), "65 kg or 75 kg"),
        (
            ("rig", "--gym", TINY, "--straight", "143.7lb", "--chain", "20%", "--units", "kg"),
            "65 kg or 75 kg",
        ),
        (
            ("rig", "--gym", TINY, "--bottom", "60kg", "--top", "70kg", "--mean", "65kg"),
            "3 of them",
        ),
        ((*ASK, "--straight", "20"), 'such as "21 lb" or "9.5 kg"'),
    ],
)
def test_nobody_else_is_troubled_with_them(words: tuple[str, ...], said: str) -> None:
    done = call(*words)
    refused(done, said)
    assert "(" not in done.err.partition("wanted")[2].replace("(kg, g, lb, lbs, oz)", "")


def test_a_gym_in_pounds_is_answered_in_pounds(tmp_path: Path) -> None:
    text = Path(TINY).read_text(encoding="utf-8")
    file = tmp_path / "gym.toml"
    file.write_text(text.replace("[gym]", '[gym]\nunits = "lb"'), encoding="utf-8")
    refused(call("rig", "--gym", str(file), "--match", "--best", "20kg"), "25 kg (55.1 lb)")
