"""What a mistake in the format looks like to the coach who made it."""

from __future__ import annotations

import pytest

from tests.gymfile.samples import HEAD, problems
from topheavy.errors import BadInputError, TopheavyError
from topheavy.gymfile import GymFileError, parse_gym
from topheavy.gymfile.problems import MOST_SHOWN

BAR = '[[bar]]\nname = "bar"\nmass = "20 kg"\nsleeve = "41.5 cm"\n'


@pytest.mark.parametrize(
    ("old", "new", "message", "field", "got", "wanted"),
    [
        ('"20 kg"', "20", "A mass without its unit", "bar[1].mass (bar, line 3)", "20",
         'write the unit, in quotes: "20 kg" or "20 lb"'),
        ('"20 kg"', "20.5", "A mass without its unit", "bar[1].mass", "20.5", '"20.5 kg"'),
        ('"41.5 cm"', "nan", "A length without its unit", "bar[1].sleeve", "nan", "in quotes"),
        ('"20 kg"', '"20"', "Not a mass", "bar[1].mass", '"20"', '"21 lb" or "9.5 kg"'),
        ('"20 kg"', '"20 stone"', "Unknown unit 'stone' for a mass", "bar[1].mass", '"20 stone"',
         "kg, g, lb"),
        ('"20 kg"', '"20 cm"', "Unknown unit 'cm' for a mass", "bar[1].mass", '"20 cm"',
         "kg, g, lb"),
        ('"20 kg"', '"-20 kg"', "A mass not above zero", "bar[1].mass", '"-20 kg"', "above 0"),
        ('"20 kg"', '"0 kg"', "A mass not above zero", "bar[1].mass", '"0 kg"', "above 0"),
        ('"20 kg"', '"20 kg or so"', "Not a mass", "bar[1].mass", "20 kg or so", "kg, g, lb"),
        ('"20 kg"', '"20e9 kg"', "A mass too large to be true", "bar[1].mass", "20e9 kg",
         "2000 kg"),
        ('"20 kg"', '"1/0 kg"', "A fraction over zero", "bar[1].mass", "1/0 kg", "above 0"),
        ('"20 kg"', "true", "Not a mass", "bar[1].mass", "true", "text in quotes"),
        ('"20 kg"', "[1]", "Not a mass", "bar[1].mass", "a list of 1", "text in quotes"),
        ('"20 kg"', "2020-02-02", "Not a mass", "bar[1].mass", "2020-02-02", "text in quotes"),
        ('"bar"', "3", "Not a text in quotes", "bar[1].name (line 3)", "3", "what you call it"),
        ('"bar"', '""', "Not a usable name", "bar[1].name", '""', "one line of text"),
        ('"bar"', '" bar"', "Not a usable name", "bar[1].name", '" bar"', "no space at either end"),
        ('"bar"', r'"\u001b[31m"', "Not a usable name", "bar[1].name", r'"\x1b[31m"', "one line"),
        ('"bar"', f'"{"b" * 61}"', "Too long a text", "bar[1].name", "bbb...", "at most 60"),
        ("mass", "Mass", 'Unknown key "Mass"', "bar[1].Mass", '"Mass"', '"mass"? Known here: name'),
        ("mass", '"odd key"', 'Unknown key "odd key"', 'bar[1]."odd key"', "odd key",
         "one of name, mass, sleeve"),
    ],
)  # fmt: skip
def test_a_wrong_value_says_where_what_came_and_what_was_wanted(
    old: str, new: str, message: str, field: str, got: str, wanted: str
) -> None:
    found = [one for one in problems(BAR.replace(old, new, 1)) if "is missing" not in one[0]]
    assert len(found) == 1
    for part, text in zip((message, field, got, wanted), found[0], strict=True):
        assert part in text


@pytest.mark.parametrize("key", ["name", "mass", "sleeve"])
def test_a_missing_key_says_what_belongs_there(key: str) -> None:
    lines = [line for line in BAR.splitlines() if not line.startswith(key)]
    (found,) = problems("\n".join(lines))
    assert found[0] == f'"{key}" is missing'
    assert found[1].startswith(f"bar[1].{key} (")
    assert "such as" in found[3]


@pytest.mark.parametrize(
    ("tables", "message", "field", "got", "wanted"),
    [
        ('[[chain]]\ntag = "A"\nsize = "5/8 in"\nlinks = 3.5', "Not a whole number",
         "chain[1].links (A, line 3)", "3.5", "(1 to 1000), such as 32"),
        ('[[chain]]\ntag = "A"\nsize = "5/8 in"\nlinks = 0', "Too small", "chain[1].links", "0",
         "1 to 1000"),
        ('[[chain]]\ntag = "A"\nsize = "5/8 in"\nlinks = -3', "Too small", "chain[1].links", "-3",
         "1 to 1000"),
        ('[[chain]]\ntag = "A"\nsize = "5/8 in"\nlinks = 1001', "Too large", "chain[1].links",
         "1001",
         "1 to 1000"),
        (f'[[chain]]\ntag = "A"\nsize = "5/8 in"\nlinks = 0x{"f" * 5000}', "Too large",
         "chain[1].links", "more than 18 digits", "1 to 1000"),
        ('[[chain]]\ntag = "A"\nsize = "5/8 in"\nlinks = true', "Not a whole number",
         "chain[1].links", "true", "1 to 1000"),
        ('[[chain]]\ntag = "A B"\nsize = "5/8 in"\nlinks = 3', "Not a usable name", "chain[1].tag",
         '"A B"', "in a tag no space"),
        ('[[chain]]\ntag = "A"\nsize = "5/8 in"\nlinks = 3\nmatched = "yes"',
         "Neither true nor false", "chain[1].matched", '"yes"', "true"),
        ('[[chain]]\ntag = "A"\nsize = "5/8 in"\nlinks = 3\nweighed = 9.5', "without its unit",
         "chain[1].weighed (A", "9.5", '"9.5 kg"'),
        ('[[chain]]\ntags = ["A", "B"]\nsize = "5/8 in"\nlinks = 3\nweighed = ["1 kg", 1]',
         "without its unit", "chain[1].weighed[2] (A", "1", '"1 kg"'),
        ('[[chain]]\ntag = "A"\nlinks = 3\ncalipers = "16 mm"', "Not a table", "chain[1].calipers",
         '"16 mm"', "wire, inside width"),
        ('[[chain]]\ntag = "A"\nlinks = 3\ncalipers = { wire = "16 mm", ten_link = "1 mm" }',
         "Unknown key", "chain[1].calipers.ten_link", "ten_link", '"ten_links"?'),
        ('[[station]]\nname = "x"\nkind = "bnch"', "Not one of the words", "station[1].kind",
         '"bnch"', '"bench" or "rack" or "platform"'),
        ('[[lifter]]\nname = "x"\nlifts = 3', "Not a table", "lifter[1].lifts", "3", "by the name"),
        ('[[lifter]]\nname = "x"\nlifts = { squat = 3 }', "Not a table", "lifter[1].lifts.squat",
         "3",
         ""),
        ('[[lifter]]\nname = "x"\nlifts = { squat = { bottom = "8 cm", top = "9 cm", pest = 3 } }',
         'Unknown key "pest"', "lifter[1].lifts.squat.pest", "", '"best"?'),
        ("[bar]\nname = 3", "There can be several of bar", "bar", "[bar]", "[[bar]]"),
        ("[[feeder]]\n[[chian]]", 'Unknown key "chian"', "chian", "", '"chain"?'),
    ],
)  # fmt: skip
def test_mistakes_of_every_kind(
    tables: str, message: str, field: str, got: str, wanted: str
) -> None:
    others = ("is missing", "without its unit in")
    found = [one for one in problems(tables) if not any(other in one[0] for other in others)]
    assert len(found) == 1
    for part, text in zip((message, field, got, wanted), found[0], strict=True):
        assert part in text


@pytest.mark.parametrize(
    ("head", "message", "wanted"),
    [
        ("", "The table [gym] is missing", "[gym]"),
        ("gym = 3\n", "Not a table", "the gym itself"),
        ('[[gym]]\nname = "x"\n', "There is only one gym", "single brackets"),
        ("[gym]\n", '"name" is missing', "as it stands on the cards"),
        ('[gym]\nname = "x"\nunits = "stone"\n', "Not one of the words", '"kg" or "lb"'),
    ],
)
def test_the_gym_itself(head: str, message: str, wanted: str) -> None:
    (found,) = problems(BAR, head)
    assert message in found[0]
    assert wanted in found[3]


def test_all_mistakes_are_told_together_in_the_order_of_the_file() -> None:
    tables = (
        '[[plate]]\nmass = "20 kg"\nwidth = "4 cm"\ndiameter = "45 cm"\n'
        '[[chain]]\ntag = "A1"\nsize = "5/8 in"\nlinks = 32\nweighed = "21 kg"\n'
        '[[chain]]\ntag = "A1"\nsize = "5/8 in"\nlinks = "32"\n'
        '[[bar]]\nname = "bar"\n'
    )
    fields = [field for _, field, _, _ in problems(tables)]
    assert fields == [
        "plate[1].count (20 kg, line 3)",
        "chain[1].weighed (A1, line 7)",
        "chain[2].links (A1, line 12)",
        "bar[1].mass (bar, line 16)",
        "bar[1].sleeve (bar, line 16)",
    ]


def test_one_mistake_is_told_in_the_errors_own_fields() -> None:
    with pytest.raises(GymFileError) as caught:
        parse_gym(HEAD + BAR.replace('"20 kg"', "20"), "shed.toml")
    error = caught.value
    assert isinstance(error, BadInputError)
    assert error.message == "Mistake in shed.toml: A mass without its unit"
    assert error.field == "bar[1].mass (bar, line 3)"
    assert error.got == "20"
    assert len(error.problems) == 1
    assert error.source == "shed.toml"


def test_many_mistakes_are_listed_but_not_without_end() -> None:
    with pytest.raises(GymFileError) as caught:
        parse_gym(HEAD + "[[bar]]\n" * 30, "shed.toml")
    text = str(caught.value)
    assert text.startswith("90 mistakes in shed.toml:\n  1. ")
    assert f"{MOST_SHOWN}. " in text
    assert f"{MOST_SHOWN + 1}. " not in text
    assert text.endswith("and 50 more.")
    assert len(caught.value.problems) == 90
    assert all(isinstance(one, TopheavyError) for one in caught.value.problems)


def test_tables_written_in_line_have_no_line_but_their_number() -> None:
    (found,) = problems('bar = [{ name = "bar", mass = "20 kg" }]', 'gym = { name = "x" }\n')
    assert found[1] == "bar[1].sleeve (bar)"


def test_several_mistakes_stand_on_lines_of_their_own() -> None:
    with pytest.raises(GymFileError) as caught:
        parse_gym(HEAD + BAR.replace('"20 kg"', "20") + "[[bar]]\n", "shed.toml")
    assert len(caught.value.problems) == 4
    text = "\n".join(caught.value.lines())
    assert text.startswith(
        "4 mistakes in shed.toml:\n"
        "  1. A mass without its unit.\n"
        "     where  bar[1].mass (bar, line 3)\n"
        "     got    20\n"
        "     wanted "
    )
    assert "; where" not in text


def test_a_height_is_shown_as_written_too() -> None:
    """In the units of the file, not only in metres."""
    lifter = '[[lifter]]\nname = "Ansa"\n[lifter.lifts."bench press"]\n'
    (low,) = problems(lifter + 'bottom = "10 in"\ntop = "42 in"\n')
    assert low[2] == "10 in = 0.254 m"
    (turned,) = problems(lifter + 'bottom = "42 in"\ntop = "26 in"\n')
    assert turned[2] == "bottom 42 in, top 26 in = bottom 1.0668 m, top 0.6604 m"


def test_a_lift_that_is_nearly_named_is_suggested() -> None:
    lifter = '[[lifter]]\nname = "Ansa"\n[lifter.lifts."{}"]\nbottom = "66 cm"\ntop = "1 m"\n'
    (near,) = problems(lifter.format("bench pres"))
    assert near[3].startswith("bench press")
    assert "deadlift" not in near[3]
    (far,) = problems(lifter.format("curl"))
    assert "deadlift" in far[3]
