"""Numbers as they are typed: with a unit, without one, and what is no number."""

from __future__ import annotations

import pytest

from topheavy.errors import BadInputError
from topheavy.web.typed import whole, whole_number, with_unit


@pytest.mark.parametrize(
    ("text", "unit", "wanted"),
    [
        ("66", "cm", "66 cm"),
        (" 66,5 ", "cm", "66,5 cm"),
        ("1 1/4", "in", "1 1/4 in"),
        ("4 ft 6 in", "cm", "4 ft 6 in"),
        ("66", "", "66"),
        ("-3", "kg", "-3 kg"),
        ("", "kg", ""),
        ("6e400", "kg", "6e400"),
        ("1.2.3", "kg", "1.2.3"),
    ],
)
def test_a_bare_number_takes_the_unit_beside_it(text: str, unit: str, wanted: str) -> None:
    assert with_unit(text, unit) == wanted


@pytest.mark.parametrize("text", ["", "3.5", "-1", "٣", "1" * 10])
def test_what_is_no_whole_number_is_refused_or_left_as_it_is(text: str) -> None:
    assert whole(text) == text
    with pytest.raises(BadInputError) as caught:
        whole_number(text, "sets", "1 or more")
    assert (caught.value.field, caught.value.wanted) == ("sets", "1 or more")
