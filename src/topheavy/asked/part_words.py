"""Feeder and connector in a coach's words: by the gym's name, or by what a tape and a scale say."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from topheavy.asked.facts import amount, dimension_of, facts_in, not_understood
from topheavy.errors import BadInputError, NotInStockError, TopheavyError
from topheavy.gym.stock import Connector, Feeder, FeederSetting
from topheavy.gymfile.feeders import STRAP_U_M
from topheavy.services.described import UNNAMED_CONNECTOR, UNNAMED_FEEDER

if TYPE_CHECKING:
    from topheavy.gym.stock import Stock
    from topheavy.units import Dimension

WANTED_FEEDER: Final = (
    'a feeder of the gym with its setting, such as "ring strap:7", or its working length, such as '
    '"62 cm" or "62 cm, whole 70 cm, 0.24 kg, rated 250 kg"'
)
WANTED_CONNECTOR: Final = (
    'a connector of the gym, or its mass, inside length and rating, such as "175 g, 72 mm, rated '
    '850 kg"'
)
_KEYED: Final = re.compile(r"(whole|within|rated|rating) (.+)", re.IGNORECASE)
_SAME_M: Final = 5e-4
_COUNT: Final = 1000


def read_feeder(text: str, stock: Stock, option: str) -> tuple[Feeder, FeederSetting]:
    """Read a feeder with its setting: a gym's by name, any other by its facts.

    Raises
    ------
    BadInputError, NotInStockError
        Words not understood; no such feeder, or no such setting.
    """
    name, colon, setting = text.rpartition(":")
    if colon:
        feeder = _in(stock.feeders, name.strip(), "feeder", option)
        return feeder, _setting(feeder, setting.strip(), option)
    alone = [feeder for feeder in stock.feeders if feeder.name == text.strip()]
    if alone:
        _setting(alone[0], "", option)
    return _feeder_by_facts(text, option)


def read_connector(text: str, stock: Stock, option: str) -> Connector:
    """Read a connector: a gym's by name, any other by its facts.

    Raises
    ------
    BadInputError, NotInStockError
        Words not understood, or no such connector.
    """
    text = text.strip()
    if any(connector.name == text for connector in stock.connectors):
        return stock.connector(text)
    said = _facts(text, option, WANTED_CONNECTOR, {"mass": "mass", "length": "length"}, stock)
    return Connector(
        name=UNNAMED_CONNECTOR,
        mass_kg=said.get("mass", 0.0),
        length_m=said.get("length", 0.0),
        rating_kg=said.get("rated"),
        count=_COUNT,
    )


def no_connector() -> Connector:
    """Stand in for a connector that nobody described: neither mass nor length nor rating."""
    return Connector(
        name=UNNAMED_CONNECTOR, mass_kg=0.0, length_m=0.0, rating_kg=None, count=_COUNT
    )


def _in(feeders: tuple[Feeder, ...], name: str, what: str, option: str) -> Feeder:
    for feeder in feeders:
        if feeder.name == name:
            return feeder
    known = ", ".join(feeder.name for feeder in feeders)
    raise NotInStockError(
        f"No {what} called {name!r}",
        field=option,
        got=repr(name),
        wanted=f"one of {known}" if known else WANTED_FEEDER,
    )


def _setting(feeder: Feeder, label: str, option: str) -> FeederSetting:
    """Find a setting by its label, by its bare number, or by its length."""
    words = (label, f"ring {label}", f"link {label}")
    for setting in feeder.settings:
        if setting.label in words or label == f"ring {setting.label}":
            return setting
    if dimension_of(label) == "length":
        length_m = amount(label, "length", option)
        for setting in feeder.settings:
            if abs(setting.length_m - length_m) <= _SAME_M:
                return setting
    try:
        return feeder.setting(label)
    except TopheavyError as error:
        raise NotInStockError(
            error.message if label else f"Which setting of {feeder.name!r}?",
            field=option,
            got=error.got if label else repr(feeder.name),
            wanted=error.wanted,
        ) from error


def _feeder_by_facts(text: str, option: str) -> tuple[Feeder, FeederSetting]:
    kinds: dict[Dimension, str] = {
        "length": "length", "mass": "mass", "linear density": "density"
    }  # fmt: skip
    said = _facts(text, option, WANTED_FEEDER, kinds)
    if "length" not in said:
        raise not_understood(text, option, WANTED_FEEDER)
    whole_m = said.get("whole", said["length"])
    if whole_m < said["length"]:
        raise BadInputError(
            "A feeder can't work longer than it is",
            field=option,
            got=repr(text),
            wanted="a working length up to the whole length",
        )
    if "mass" in said and "density" in said:
        raise BadInputError(
            "A feeder is weighed once",
            field=option,
            got=repr(text),
            wanted="its mass or its mass per length",
        )
    setting = FeederSetting(label="as described", length_m=said["length"])
    feeder = Feeder(
        name=UNNAMED_FEEDER,
        form="strap",
        settings=(setting,),
        whole_m=whole_m,
        density_kg_per_m=said.get("density", said.get("mass", 0.0) / whole_m),
        rating_kg=said.get("rated"),
        count=_COUNT,
        setting_u_m=said.get("within", STRAP_U_M),
    )
    return feeder, setting


def _facts(
    text: str,
    option: str,
    wanted: str,
    kinds: dict[Dimension, str],
    stock: Stock | None = None,
) -> dict[str, float]:
    """Read facts in a row: bare quantities by their unit, others by their first word."""
    said: dict[str, float] = {}
    facts = facts_in(text)
    for fact in facts:
        keyed = _KEYED.fullmatch(fact)
        dimension = dimension_of(fact)
        if keyed is not None:
            name = "rated" if keyed[1].lower() == "rating" else keyed[1].lower()
            value = amount(keyed[2], "mass" if name == "rated" else "length", option)
        elif dimension in kinds:
            name, value = kinds[dimension], amount(fact, dimension, option)
        else:
            raise _unknown(fact, option, wanted, stock)
        if name in said:
            raise BadInputError(
                "The same thing is said twice", field=option, got=repr(fact), wanted="it once"
            )
        said[name] = value
    if not facts:
        raise not_understood(text, option, wanted)
    return said


def _unknown(fact: str, option: str, wanted: str, stock: Stock | None) -> TopheavyError:
    if stock is None or not stock.connectors:
        return not_understood(fact, option, wanted)
    known = ", ".join(connector.name for connector in stock.connectors)
    return NotInStockError(
        f"No connector called {fact!r}",
        field=option,
        got=repr(fact),
        wanted=f"one of {known}; or its mass, inside length and rating in a row",
    )
