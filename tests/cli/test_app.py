"""The command line as a whole: help, version, exit codes, odd terminals."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path
from typing import NoReturn

import pytest
from typer.main import get_command

from tests.cli.calling import RIG, TINY, call, run
from topheavy import __version__
from topheavy.cli.app import app, main
from topheavy.cli.commands import COMMANDS

ALL = [
    *(
        [name]
        for name in COMMANDS
        if name not in {"account", "buy", "gym", "log", "room", "weeks", "work"}
    ),
    *(["account", name] for name in ("add", "list", "passphrase", "sign-out", "remove")),
    *(["gym", name] for name in ("check", "example", "schema", "load", "save", "stored")),
    *(
        ["log", name]
        for name in ("add", "list", "correct", "strike", "import", "export", "example")
    ),
    *(["buy", name] for name in ("list", "example", "schema")),
    *(["room", name] for name in ("plan", "example", "schema")),
    *(["weeks", name] for name in ("show", "example", "schema")),
    *(["work", name] for name in ("give", "plan", "list", "show", "take")),
]
SLOW = ("numpy", "scipy", "pydantic", "rich", "typst", "tomllib", "json", "sqlalchemy", "alembic")


def test_version_is_printed_alone() -> None:
    assert call("--version").out == f"topheavy {__version__}\n"


def test_no_words_at_all_show_the_help() -> None:
    done = call()
    assert done.code == 2
    assert "Commands:" in done.out + done.err


@pytest.mark.parametrize(
    "words", [[], ["gym"], ["log"], ["room"], ["buy"], ["weeks"], ["work"], *ALL], ids=" ".join
)
def test_help_fits_80_columns_and_cuts_nothing_off(words: list[str]) -> None:
    done = call(*words, "--help")
    assert done.code == 0
    lines = done.out.splitlines()
    assert max(len(line) for line in lines) <= 80
    listed = lines[lines.index("Commands:") :] if "Commands:" in lines else []
    assert not [line for line in listed if line.endswith("...")]
    assert call(*words, "-h").out == done.out


@pytest.mark.parametrize("words", ALL, ids=" ".join)
def test_help_has_examples(words: list[str]) -> None:
    assert "  Examples\n    topheavy " in call(*words, "--help").out


@pytest.mark.parametrize("name", list(COMMANDS))
def test_the_list_of_commands_says_what_each_says_of_itself(name: str) -> None:
    text = get_command(app).commands[name].help  # type: ignore[attr-defined]  # it is a group
    assert text.splitlines()[0] == COMMANDS[name][1]


def test_every_option_says_what_it_is_for() -> None:
    for words in ALL:
        command = get_command(app)
        for word in words:
            command = command.commands[word]  # type: ignore[attr-defined]  # it is a group
        assert not [option.name for option in command.params if not getattr(option, "help", "")]


def test_the_help_loads_nothing_slow() -> None:
    """Start-up is what is imported; that can be counted, where time can't on a busy machine."""
    code = (
        "import sys\nfrom topheavy.cli.app import app\n"
        "try: app(['--help'])\nexcept SystemExit: pass\n"
        f"print(sorted(m for m in {SLOW} if m in sys.modules), file=sys.stderr)\n"
        "print(sorted(m for m in sys.modules if m.startswith('topheavy.')), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    slow, ours = done.stderr.splitlines()
    assert slow == "[]"
    assert ours == str(
        [
            "topheavy.cli",
            "topheavy.cli.app",
            "topheavy.cli.commands",
            "topheavy.errors",
            "topheavy.present",
            "topheavy.present.spelling",
        ]
    )


@pytest.mark.parametrize(
    "words",
    [
        ["curve", *RIG, "--lifter", "Ansa"],
        ["rig", "--gym", TINY, "--lifter", "Ansa", "--bottom", "65kg", "--top", "85kg"],
    ],
    ids=["curve", "rig"],
)
def test_a_plain_answer_needs_no_heavy_library(words: list[str]) -> None:
    """SciPy alone takes longer to import than the answer to work out; Typst only makes cards."""
    code = (
        "import sys\nfrom topheavy.cli.app import app\n"
        f"try: app({words})\nexcept SystemExit as end: assert not end.code\n"
        "print(sorted(m for m in ('scipy', 'typst') if m in sys.modules), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.splitlines() == ["[]"]


def test_a_command_typed_wrong_is_told_with_the_nearest() -> None:
    done = call("curv")
    assert done.code == 2
    assert "Did you mean 'curve'?" in done.err


def test_a_mistake_goes_to_stderr_with_where_got_and_wanted() -> None:
    done = run("curve", *RIG, "--at", "2 stones")
    assert (done.code, done.out) == (2, "")
    first, *rest = done.err.splitlines()
    assert first == "topheavy: Unknown unit 'stones' for a length."
    assert [line.split()[0] for line in rest] == ["where", "got", "wanted"]


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437"])
def test_a_terminal_without_our_characters_still_gets_an_answer(encoding: str) -> None:
    env = {"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"}
    done = subprocess.run(
        [sys.executable, "-m", "topheavy", "curve", *RIG, "--lifter", "Ansa"],
        env={"PATH": "", "COLUMNS": "80", **env},
        capture_output=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    lines = done.stdout.decode(encoding).splitlines()
    assert max(len(line) for line in lines) <= 80
    top = next(line for line in lines if line.lstrip().startswith("top"))
    assert ("\N{PLUS-MINUS SIGN}" in top) == (encoding != "ascii")
    assert ("+-" in top) == (encoding == "ascii")


def test_json_for_an_ascii_pipe_loses_nothing() -> None:
    plain = run("curve", *RIG, "--at", "70cm", "--json", env={"PYTHONIOENCODING": "ascii"})
    assert plain.out.isascii()
    assert plain.json == call("curve", *RIG, "--at", "70cm", "--json").json


def test_words_that_are_no_text_are_refused_not_choked_on() -> None:
    if sys.platform == "win32":
        pytest.skip("Windows passes text")
    done = run("curve", "--left", b"\xff\xfe", "--right", "none", "--at", "70cm")
    assert done.code == 2
    assert "Traceback" not in done.err


def test_interrupting_is_quiet(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop(*_: object) -> NoReturn:
        raise KeyboardInterrupt

    monkeypatch.setattr("topheavy.gymfile.demo_text", stop)
    done = call("gym", "example")
    assert (done.code, done.out, done.err) == (130, "", "")


def test_interrupting_outside_a_command_is_quiet(monkeypatch: pytest.MonkeyPatch) -> None:
    def stop() -> NoReturn:
        raise KeyboardInterrupt

    monkeypatch.setattr("topheavy.cli.app.app", stop)
    with pytest.raises(SystemExit) as stopped:
        main()
    assert stopped.value.code == 130


def test_a_reader_that_stops_listening_is_no_failure_to_tell() -> None:
    writer = subprocess.Popen(
        [sys.executable, "-m", "topheavy", "gym", "schema"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert writer.stdout is not None
    assert writer.stderr is not None
    writer.stdout.close()
    complaint = writer.stderr.read()
    writer.stderr.close()
    assert writer.wait() == 1
    assert complaint == b""


def test_a_full_disk_is_told_in_plain_words() -> None:
    full = Path("/dev/full")
    if not full.exists():
        pytest.skip("no /dev/full here")
    with full.open("wb") as out:
        done = subprocess.run(
            [sys.executable, "-m", "topheavy", "gym", "check", TINY],
            stdout=out,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == 2
    assert b"No space left" in done.stderr
    assert b"Traceback" not in done.stderr


def test_streams_that_can_not_be_set_up_are_left_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    out = io.StringIO()
    monkeypatch.setattr(sys, "stdout", out)
    monkeypatch.setattr(sys, "argv", ["topheavy", "--version"])
    with pytest.raises(SystemExit) as ended:
        main()
    assert ended.value.code == 0
    assert out.getvalue() == f"topheavy {__version__}\n"
