"""Sentences with quantities, in kilograms and in pounds."""

from __future__ import annotations

from topheavy.phrase import Amount, Phrase, Remark
from topheavy.units import POUNDS


def test_amounts_are_said_in_the_units_asked_for() -> None:
    phrase = Phrase(
        "{} lower, {} more, {} instead",
        (Amount(0.0254, "length"), Amount(4.5359237, "mass"), Amount(1.0, "linear density")),
    )
    assert phrase.say() == "2.5 cm lower, 4.5 kg more, 1.00 kg/m instead"
    assert phrase.say(POUNDS) == "1.0 in lower, 10.0 lb more, 0.67 lb/ft instead"


def test_decimals_can_be_chosen() -> None:
    assert Phrase("a plate of {}", (Amount(1.25, "mass", 2),)).say() == "a plate of 1.25 kg"


def test_a_remark_says_its_phrase() -> None:
    remark = Remark("heavy", Phrase("{} hang", (Amount(4.5359237, "mass"),)))
    assert (remark.say(), remark.say(POUNDS)) == ("4.5 kg hang", "10.0 lb hang")
