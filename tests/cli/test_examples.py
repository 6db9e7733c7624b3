"""Every example shown in help texts and docstrings runs against the built-in gym."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
import shlex
import shutil
from pathlib import Path

import pytest

import topheavy.cli
from tests.cli.calling import Called, call
from tests.cli.test_app import ALL
from topheavy.gymfile import demo_text
from topheavy.planfile import demo_plan_text

_EXAMPLE = re.compile(r"^ +(topheavy (?:[^\n]*\\\n)*[^\n]*)$", re.MULTILINE)


def _shown() -> list[str]:
    texts = [call(*words, "--help").out for words in ([], *ALL)]
    for module in pkgutil.iter_modules(topheavy.cli.__path__):
        found = importlib.import_module(f"topheavy.cli.{module.name}")
        functions = inspect.getmembers(found, inspect.isfunction)
        texts += [inspect.getdoc(member) or "" for _, member in functions]
    examples = [re.sub(r"\\\n\s*", "", text) for page in texts for text in _EXAMPLE.findall(page)]
    return [text for text in dict.fromkeys(examples) if "COMMAND" not in text]


EXAMPLES = _shown()
RUN_ON = "topheavy serve"
"""Commands that run until they are stopped; their own tests run their examples."""


def test_there_are_examples_of_every_command() -> None:
    commands = {tuple(words) for words in ALL}
    shown = {tuple(shlex.split(text)[1:3]) for text in EXAMPLES}
    assert {words for words in commands if len(words) == 2} <= shown
    assert {words[0] for words in commands} <= {words[0] for words in shown}


def _pipe(text: str) -> Called:
    """Run commands joined by | and perhaps sent to a file by >, as a shell does."""
    done, stdin = Called(0, "", ""), None
    text, _, file = text.partition(" > ")
    for command in text.split(" | "):
        done = call(*shlex.split(command)[1:], stdin=stdin)
        stdin = done.out
    if file:
        Path(file).write_text(done.out, encoding="utf-8")
    return done


SETS = """day,lifter,lift,Weight,reps
2026-11-20,Osric,bench press,120,5
2026-11-20,Pip,squat,80,3
"""


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with the built-in gym and a set in it."""
    path = tmp_path_factory.mktemp("kept") / "store.sqlite"
    gym = path.with_name("mine.toml")
    gym.write_text(demo_text(), encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("TOPHEAVY_STORE", str(path))
        assert call("gym", "load", str(gym)).code == 0
        words = ["--lifter", "Pip", "--lift", "squat", "--straight", "80kg", "--reps", "3"]
        squat = ["--lifter", "Runa", "--lift", "squat", "--bottom", "60%", "--top", "75%"]
        assert call("work", "give", *squat).code == 0
        call("log", "add", *words, "--id", "5d5a2c8e-0000-4000-8000-000000000001")
        for name in ("Coach", "Runa", "Pip"):
            assert call("account", "add", name, "--link").code == 0
    return path


@pytest.mark.parametrize("text", [text for text in EXAMPLES if not text.startswith(RUN_ON)])
def test_example_runs(
    text: str, tmp_path: Path, own_store: Path, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    if not text.startswith(("topheavy gym load", "topheavy account add Runa")):
        shutil.copy(kept, own_store)
    (tmp_path / "sets.csv").write_text(SETS, encoding="utf-8")
    (tmp_path / "winter.toml").write_text(demo_plan_text(), encoding="utf-8")
    (tmp_path / "mine.toml").write_text(demo_text(), encoding="utf-8")
    (tmp_path / "passphrase.txt").write_text("four plates and some chain\n", encoding="utf-8")
    done = _pipe(text)
    assert done.code == 0, done.err
    assert done.err == ""
    assert done.out
