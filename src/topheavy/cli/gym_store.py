"""`topheavy gym load`, `save` and `stored`: gyms in the store, and back as files."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from topheavy.cli.options import JsonOption
from topheavy.cli.panels import PanelCommand
from topheavy.cli.stored import ByOption, StoredGymOption

LoadArgument = Annotated[Path, typer.Argument(metavar="FILE", help="Gym file (TOML).")]
SaveArgument = Annotated[Path, typer.Argument(metavar="FILE", help="Where to write it (.toml).")]
OverOption = Annotated[
    int | None,
    typer.Option("--over", metavar="N", help="The version that you changed, when it is there."),
]
NoteOption = Annotated[
    str, typer.Option("--note", metavar="TEXT", help="Why; kept with the version.")
]
VersionOption = Annotated[
    int | None, typer.Option("--version", metavar="N", help="As it stood then; else as it stands.")
]
ReplaceOption = Annotated[
    bool, typer.Option("--replace", help="Replace a file that is there, its notes too.")
]
NameOption = Annotated[
    str,
    typer.Option("--name", metavar="GYM", help="Which gym; not needed for the only one."),
]


def add_store_commands(group: typer.Typer) -> None:
    """Give the group of gym commands those of the store."""
    group.command("load", cls=PanelCommand)(load)
    group.command("save", cls=PanelCommand)(save)
    group.command("stored", cls=PanelCommand)(stored)


def load(
    file: LoadArgument,
    over: OverOption = None,
    note: NoteOption = "",
    by: ByOption = None,
) -> None:
    """Bring a gym file into the store, as a new gym or a next version.

    Nothing is overwritten: every version stays, with who and when. A gym that
    is there already wants --over with the version you changed, so that nobody
    changes over somebody else's work unseen. Notes (#) stay in your file.

    \b
    Examples
      topheavy gym load mine.toml
      topheavy gym load mine.toml --by Coach --note "new chain"
    """
    from topheavy.cli.stored import now, the_store, who
    from topheavy.gymfile import read_tables
    from topheavy.store.gyms import Change, save_gym
    from topheavy.store.problems import StaleError

    tables, found = read_tables(file)
    change = Change(author=who(by), at=now(), note=note.strip() or file.name, over=over)
    try:
        with the_store() as store:
            saved, where = save_gym(store, tables, found, change), store.where
    except StaleError as error:
        error.field = "--over"
        raise
    version = saved.version
    if not saved.changed:
        print(f"{found.name} stands in the store like that already: version {version.number}.")
        return
    print(f"{found.name} is in the store: version {version.number}, by {version.author}.")
    print(f"Kept in {where}.")
    print(f'Use it with --gym "store:{found.name}"')


def save(
    file: SaveArgument,
    name: NameOption = "",
    version: VersionOption = None,
    replace: ReplaceOption = False,
) -> None:
    """Write a gym out of the store as a gym file.

    It means the same as the file it came from. Notes (#) and the layout of
    that file are not in the store, so a file that is there is kept unless
    you say --replace.

    \b
    Examples
      topheavy gym save mine-again.toml
      topheavy gym save then.toml --name "The Tarnfell Barbell Barn" --version 1
    """
    from topheavy.cli.files import check_output, write_whole
    from topheavy.cli.stored import the_store
    from topheavy.errors import FileError
    from topheavy.gymfile import gym_text
    from topheavy.store.gyms import load_gym

    check_output(file, "FILE", kinds=(".toml",))
    if file.exists() and not replace:
        raise FileError(
            "There is such a file already",
            field="FILE",
            got=str(file),
            wanted="another name, or --replace; its notes would be lost",
        )
    with the_store() as store:
        found = load_gym(store, name.strip(), version)
    at = found.version
    notes = (f"Version {at.number} in the store, by {at.author}, {at.at:%Y-%m-%d %H:%M} UTC.",)
    write_whole(file, gym_text(found.tables, notes))
    print(f"{found.gym.name}, version {at.number}, is in {file}.")
    print(f"Changed it? topheavy gym load {file} --over {at.number}")


def stored(gym: StoredGymOption = "", as_json: JsonOption = False) -> None:
    """List the gyms in the store and their versions: who, when, why.

    \b
    Examples
      topheavy gym stored
      topheavy gym stored --gym "store:The Tarnfell Barbell Barn" --json
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import name_of, the_store
    from topheavy.present.store.view import render_versions, view_versions
    from topheavy.store.gyms import history

    with the_store() as store:
        found = history(store, name_of(gym))
        where = store.where
    view = view_versions(
        where, [(one.gym, one.number, one.at.isoformat(), one.author, one.note) for one in found]
    )
    if as_json:
        print_json(view)
    else:
        print_view(view, render_versions)
