"""Every public function of the core says its units: in the name, or in its docstring."""

from __future__ import annotations

import inspect
import pkgutil
import re
from importlib import import_module
from typing import TYPE_CHECKING

import pytest

import topheavy

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

CORE = ("mechanics", "catalogue", "gym", "rigging", "lifter", "training", "services", "room")
NUMBERS = re.compile(r"\b(float|ArrayLike|Floats|NDArray\[np\.float64\])")
UNIT_IN_NAME = re.compile(
    r"_(m|kg|n|j|s|w|hz|mm|cm|per_\w+|kg_per_m|m_per_s|m_per_s2|n_per_m|kg_m|rad|deg|pitches)\d?$"
)
UNIT_IN_WORDS = re.compile(r"\[[^\]]+\]")


def modules() -> Iterator[str]:
    for room in CORE:
        package = import_module(f"topheavy.{room}")
        yield package.__name__
        for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            yield found.name


def public_functions() -> Iterator[tuple[str, Callable[..., object]]]:
    for name in modules():
        if any(part.startswith("_") for part in name.split(".")):
            continue
        module = import_module(name)
        for title, thing in vars(module).items():
            if title.startswith("_") or getattr(thing, "__module__", None) != name:
                continue
            if inspect.isfunction(thing):
                yield f"{name}.{title}", thing


FUNCTIONS = dict(public_functions())


@pytest.mark.parametrize("name", sorted(FUNCTIONS))
def test_numbers_carry_their_unit(name: str) -> None:
    function = FUNCTIONS[name]
    text = inspect.getdoc(function) or ""
    assert text, f"{name} has no docstring"
    for parameter in inspect.signature(function).parameters.values():
        if not NUMBERS.search(str(parameter.annotation)):
            continue
        if UNIT_IN_NAME.search(parameter.name):
            continue
        assert _said(parameter.name, text), (
            f"{name}: parameter {parameter.name} has no unit in its name and none in the docstring"
        )


def _said(parameter: str, text: str) -> bool:
    """Whether the docstring gives the parameter's unit in brackets, or [-] for a pure number."""
    entry = re.search(
        rf"^[ \w,`]*\b{re.escape(parameter)}\b[^\n]*:[^\n]*\n((?:[ ]+[^\n]*\n?)+)",
        text,
        re.MULTILINE,
    )
    near = entry[1] if entry else ""
    inline = re.search(rf"`{re.escape(parameter)}`[^.]*?\[[^\]]+\]", text, re.DOTALL)
    short = "Parameters\n---" not in text and UNIT_IN_WORDS.search(text)
    return bool(UNIT_IN_WORDS.search(near) or inline or short)


def test_the_core_was_found() -> None:
    assert len(FUNCTIONS) > 80
    assert topheavy.__version__
