"""Price files: the example, and every mistake told with its place."""

from __future__ import annotations

import tomllib

import jsonschema
import pytest

from topheavy.roomfile.prices import (
    PriceFileError,
    demo_prices_text,
    parse_prices,
    price_schema,
)


def test_the_example_fits_its_schema_and_is_read() -> None:
    jsonschema.Draft202012Validator.check_schema(price_schema())
    jsonschema.validate(tomllib.loads(demo_prices_text()), price_schema())
    shelf = parse_prices(demo_prices_text())
    first, second = shelf.chains
    assert (first.sold, first.price, first.cut_price) == (107, 8400, 200)
    assert second.piece_price(38) == round(950 * 38 * second.pitch_m)
    assert [(one.name, price) for one, price in shelf.connectors] == [("12 mm screw link", 1100)]
    assert shelf.feeders[0][0].count == 2
    assert (shelf.currency, shelf.most_carried_kg) == ("EUR", 14.0)


CHAIN = '[[chain]]\nname = "a"\nsize = "5/8 in"\ncuts = [20]\n'
MISTAKES = {
    CHAIN: ("in lengths or by the metre", "chain[1]"),
    CHAIN + "metre = 9.5\nprice = 5.0\n": ("in lengths or by the metre",),
    CHAIN + 'sold = "1 m"\nprice = 5.0\n': ("longer than the length", "chain[1].cuts"),
    CHAIN + "metre = -1.0\n": ("Too small", "chain[1].metre"),
    CHAIN + "metr = 1.0\n": ('Unknown key "metr"', '"metre"?'),
    CHAIN + "metre = 9.5\n" + CHAIN + "metre = 9.5\n": ("listed twice",),
    '[[chain]]\nname = "a"\nsize = "nonsense"\ncuts = [20]\nmetre = 1.0\n': ("chain[1]",),
    '[[chian]]\nname = "a"\n': ('Unknown key "chian"', '"chain"?'),
    "[chain]\n": ("There can be several",),
    '[[connector]]\nname = "a"\nmass = "1 kg"\nlength = "5 cm"\nprice = 1.0\n': (
        '"rating" is missing',
    ),
}


@pytest.mark.parametrize("text", MISTAKES)
def test_a_mistake_is_told_with_its_place(text: str) -> None:
    with pytest.raises(PriceFileError) as caught:
        parse_prices(text)
    said = "\n".join(caught.value.lines())
    for words in MISTAKES[text]:
        assert words in said, said


BANDS = """
[[band]]
name = "blue loop"
rest = "45 cm"
readings = [
    { length = "60 cm", pull = "4.7 kg" },
    { length = "80 cm", pull = "10.4 kg" },
    { length = "100 cm", pull = "14.6 kg" },
]
price = 14.0
"""


def test_bands_are_read() -> None:
    (offer,) = parse_prices(BANDS).bands
    assert (offer.name, offer.price) == ("blue loop", 1400)
    assert offer.readings.tension_kg == (4.7, 10.4, 14.6)
    assert offer.band(2).tag == "blue loop #2"


def test_readings_that_fall_are_told_with_their_place() -> None:
    with pytest.raises(PriceFileError, match=r"band\[1\]"):
        parse_prices(BANDS.replace("14.6 kg", "4.6 kg"))
