"""The words a rig is described in: chain, feeders, connectors, hangs."""

from __future__ import annotations

import pytest

from topheavy.asked.chain_words import read_chain
from topheavy.asked.facts import dimension_of, facts_in
from topheavy.asked.hang_words import HangWords, read_ends
from topheavy.asked.part_words import read_connector, read_feeder
from topheavy.errors import BadInputError, NotInStockError, TopheavyError
from topheavy.gym.stock import Feeder, FeederSetting, Stock
from topheavy.gymfile import demo_gym

STOCK = demo_gym().stock
NONE = Stock()


def test_facts_split_at_commas_that_are_no_decimal_commas() -> None:
    assert facts_in("32 links,5/8 in ; 9,5 kg,, ") == ["32 links", "5/8 in", "9,5 kg"]


@pytest.mark.parametrize(
    ("fact", "dimension"),
    [
        ("9.5 kg", "mass"),
        ("21LB", "mass"),
        ("5/8 in", "length"),
        ("5/8in", "length"),
        ("4 ft 6 in", "length"),
        ("5.3 kg/m", "linear density"),
        ("12", None),
        ("kg", None),
        ("", None),
        ("5 stone", None),
    ],
)
def test_the_unit_tells_what_is_measured(fact: str, dimension: str | None) -> None:
    assert dimension_of(fact) == dimension


@pytest.mark.parametrize(
    ("text", "links", "pitch_mm", "kg_per_m"),
    [
        ("32 x 5/8 in", 32, 56, 5.3),
        ("32x5/8", 32, 56, 5.3),
        ("32 * 16 x 56 mm", 32, 56, 5.3),
        ("32 links, 16 x 56 mm", 32, 56, 5.3),
        ("1 link, DIN 764, 16 mm", 1, 56, 5.3),
        ("40 x 13 mm, DIN 766", 40, 36, 3.9),
        ("32 links, 16 mm, 5.5 kg/m", 32, 56, 5.5),
        ("10 links, 5/8 in, 592 mm over ten, 3 kg", 10, 56, 3 / 0.56),
        ("10 links, 5/8 in, 312 mm over five links, 3 kg", 10, 56, 3 / 0.56),
        ("10 links, wire 16 mm, pitch 56 mm, 3 kg", 10, 56, 3 / 0.56),
        ("10 links, 5/8 in, pitch 56 mm, grade 30", 10, 56, 5.3),
        ("10 links, 5/8 in, G30", 10, 56, 5.3),
    ],
)
def test_chain_in_words(text: str, links: int, pitch_mm: float, kg_per_m: float) -> None:
    chain = read_chain(text, "--chain", "#1").chain
    assert chain.links == links
    assert chain.pitch_m == pytest.approx(pitch_mm / 1e3, rel=2e-3)
    assert chain.density_kg_per_m == pytest.approx(kg_per_m, rel=2e-3)


def test_chain_by_calipers_takes_width_and_wire() -> None:
    """16 x 56 x 22 mm is printed as 5.3 kg/m (DIN 764); a wider link of it weighs more."""
    text = "10 links, wire 16 mm, width {} mm, 592 mm over ten"
    narrow, wide = (read_chain(text.format(mm), "--chain", "#1").chain for mm in (22, 26))
    assert narrow.density_kg_per_m == pytest.approx(5.3, rel=0.02)
    assert wide.density_kg_per_m > narrow.density_kg_per_m


def test_scale_and_tape_alone_tell_the_wire() -> None:
    """The 16 mm links of DIN 764: 0.297 kg each, ten of them 592 mm."""
    piece = read_chain("32 links, 592 mm over ten links, 9.5 kg", "--chain", "#1")
    assert piece.wire_diameter_m == pytest.approx(0.016, abs=2e-4)
    assert piece.chain.mass_kg == pytest.approx(9.5, abs=1e-9)
    assert piece.weighed


@pytest.mark.parametrize(
    "text",
    [
        "", ",", "32", "x 5/8 in", "32 x", "links", "32 links", "-3 x 5/8 in", "0 x 5/8 in",
        "1001 x 5/8 in", "9999999999 x 5/8 in", "32 x 5/8 kg", "32 x 99 mm",
        "32 x 5/8 in, 32 links", "32 x 5/8 in, 9 kg, 9 kg", "32 x 5/8 in, grade 999",
        "32 x 5/8 in, grade 30, G30", "32 x 5/8 in, EN 1", "32 x 5/8 in, 5.3 kg/m, 9.5 kg",
        "32 links, 9.5 kg", "32 links, 592 mm over ten", "32 links, 592 mm over 0 links",
        "32 links, 592 mm over some", "32 links, wire 16 mm",
        "32 links, wire 99 mm, 592 mm over ten", "32 links, wire 16 mm, pitch 3 mm",
        "32 links, pitch 56 mm, 592 mm over ten, 9.5 kg", "32 links, 592 mm over ten, 950 kg",
        "32 links, 592 mm over ten, 0.1 kg", "32 links, pitch 56 mm, 95 kg",
        "32 x 5/8 in, and more", "32 x 5/8 in, -9 kg", "32 x 5/8 in, 60 kg",
        "32 links, wire 0 mm, 592 mm over ten", "32 x 5/8 in, grade " + "3" * 30,
        "32 x " + "5" * 400 + " in",
    ],
)  # fmt: skip
def test_chain_that_can_not_be(text: str) -> None:
    with pytest.raises((BadInputError, NotInStockError)) as told:
        read_chain(text, "--chain", "#1")
    assert told.value.field == "--chain"
    assert told.value.wanted


@pytest.mark.parametrize(
    ("text", "name", "length_m"),
    [
        ("ring strap:7", "ring strap", 0.66),
        ("ring strap: ring 7", "ring strap", 0.66),
        ("ring strap:66 cm", "ring strap", 0.66),
        ("feeder chain:link 20", "feeder chain", 0.58),
        ("feeder chain:20", "feeder chain", 0.58),
        ("ratchet strap:62.5 cm", "ratchet strap", 0.625),
        ("ratchet strap:62,5cm", "ratchet strap", 0.625),
        ("62cm", "the feeder", 0.62),
        ("2 ft 1/2 in", "the feeder", 0.6223),
    ],
)
def test_feeders_in_words(text: str, name: str, length_m: float) -> None:
    feeder, setting = read_feeder(text, STOCK, "--feeder")
    assert feeder.name == name
    assert setting.length_m == pytest.approx(length_m, abs=1e-6)


def test_a_feeder_by_its_facts() -> None:
    feeder, _ = read_feeder("62 cm, 0.28 kg, whole 70 cm, rated 250 kg, within 3 mm", NONE, "-")
    assert (feeder.whole_m, feeder.rating_kg, feeder.setting_u_m) == (0.7, 250, 0.003)
    assert feeder.density_kg_per_m == pytest.approx(0.4)
    feeder, _ = read_feeder("62 cm; 0.4 kg/m; rating 250 kg", NONE, "-")
    assert (feeder.density_kg_per_m, feeder.rating_kg) == (0.4, 250)


@pytest.mark.parametrize(
    "text",
    [
        "", "ring strap", "ring strap:", "ring strap:8", "ring strap:67 cm", "rope:1", "6 kg",
        "0 cm", "-62 cm", "62", "62 cm, 62 cm", "62 cm, whole 50 cm", "62 cm, 0.3 kg, 0.3 kg/m",
        "whole 70 cm", "62 cm, rated 3 cm", "62 cm, rated 0 kg", "62 cm, made of rope", ":",
        "ring strap:-66 cm", "62 cm, within 0 mm",
    ],
)  # fmt: skip
def test_feeders_that_can_not_be(text: str) -> None:
    with pytest.raises((BadInputError, NotInStockError)) as told:
        read_feeder(text, STOCK, "--feeder")
    assert told.value.field == "--feeder"
    assert told.value.wanted


def test_connectors_in_words() -> None:
    assert read_connector("bow shackle 3/8 in", STOCK, "-").rating_kg == 1000
    told = read_connector("175 g, 72 mm, rated 850 kg", STOCK, "-")
    assert (told.mass_kg, told.length_m, told.rating_kg) == (0.175, 0.072, 850)


@pytest.mark.parametrize(
    "text", ["", "hook", "175 g, 175 g", "0 g", "rated", "rated 3 cm", "3 kg/m"]
)
@pytest.mark.parametrize("stock", [STOCK, NONE], ids=["gym", "no gym"])
def test_connectors_that_can_not_be(text: str, stock: Stock) -> None:
    with pytest.raises((BadInputError, NotInStockError)) as told:
        read_connector(text, stock, "--connector")
    assert told.value.field == "--connector"


def ends(**words: object) -> list[list[tuple[str, str, str, list[str]]]]:
    """Read both ends: style, feeder with setting, connector and tags of each hang."""
    read = read_ends(HangWords(**words), STOCK)  # type: ignore[arg-type]  # each test's own words
    return [
        [
            (
                hanging.fixture.style,
                f"{held.feeder.name}:{held.setting.label}" if held.feeder and held.setting else "",
                held.connector.name if held.connector else "",
                [piece.tag for piece in hanging.pieces],
            )
            for hanging in end
            for held in [hanging.fixture]
        ]
        for end in read
    ]


def test_pieces_alike_in_feeder_and_connector_hang_together() -> None:
    left, right = ends(
        left=("A1+A2", "B1"),
        right=("A3", "A4 + B2"),
        feeder="ring strap:7",
        connector="10 mm screw link",
    )
    assert left == [("doubled", "ring strap:7", "10 mm screw link", ["A1", "A2", "B1"])]
    assert right == [("doubled", "ring strap:7", "10 mm screw link", ["A3", "A4", "B2"])]


def test_a_hang_may_name_its_own_feeder_connector_and_style() -> None:
    left, right = ends(
        left=("A1 on ring strap:7 with bow shackle 3/8 in", "B1 on feeder chain:9", "C1 straight"),
        right=("A3 with 10 mm screw link", "B2 DRAPED"),
        feeder="ratchet strap:62.0 cm",
    )
    assert left == [
        ("doubled", "ring strap:7", "bow shackle 3/8 in", ["A1"]),
        ("doubled", "feeder chain:link 9", "the connector", ["B1"]),
        ("straight", "", "", ["C1"]),
    ]
    assert right == [
        ("doubled", "ratchet strap:62.0 cm", "10 mm screw link", ["A3"]),
        ("draped", "", "", ["B2"]),
    ]


def test_chain_of_no_gym_hangs_on_both_ends_beside_the_gyms() -> None:
    left, right = ends(both=("32 x 5/8 in + 20 x 5/8 in",), left=("A1",), feeder="62cm")
    assert left == [("doubled", "the feeder:as described", "the connector", ["#1", "#2", "A1"])]
    assert right == [("doubled", "the feeder:as described", "the connector", ["#1", "#2"])]


def test_a_feeder_with_awkward_words_in_its_name() -> None:
    strap = Feeder(
        name="strap: with rings",
        form="rings",
        settings=(FeederSetting(label="1", length_m=0.5),),
        whole_m=0.5,
        density_kg_per_m=0.3,
        rating_kg=100.0,
        count=2,
        setting_u_m=0.003,
    )
    words = HangWords(both=("8 x 5/8 in on strap: with rings:1 with 90 g",))
    (hanging,), _ = read_ends(words, Stock(feeders=(strap,)))
    assert hanging.fixture.feeder == strap
    assert hanging.fixture.connector is not None
    assert hanging.fixture.connector.mass_kg == 0.09


@pytest.mark.parametrize(
    "words",
    [
        {"left": ("A1",)},
        {"left": ("",), "right": ("A1",)},
        {"left": ("+",), "right": ("A1",)},
        {"left": ("A1+",), "right": ("A2",)},
        {"left": ("A1 on",), "right": ("A2",)},
        {"left": ("A1 on : with ",), "right": ("A2",)},
        {"left": ("A1 straight with 90 g",), "right": ("A2",)},
        {"left": ("none", "A1"), "right": ("A2",)},
        {"left": ("A1",), "right": ("A2",), "style": "upside down"},
        {"left": ("A1 with nothing",), "right": ("A2",)},
        {"both": ("A1",)},
        {"both": ("none",)},
    ],
    ids=str,
)
def test_ends_that_can_not_be(words: dict[str, object]) -> None:
    with pytest.raises(TopheavyError) as told:
        ends(**{"feeder": "62cm", **words})
    assert told.value.field
