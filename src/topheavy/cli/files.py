"""Writing what was asked for: whole or not at all."""

from __future__ import annotations

import os
import tempfile
from contextlib import contextmanager
from pathlib import Path
from typing import IO, TYPE_CHECKING

from topheavy.errors import BadInputError, FileError

if TYPE_CHECKING:
    from collections.abc import Iterator


def check_output(path: Path, option: str, *, kinds: tuple[str, ...]) -> str:
    """Refuse a place for output before anything is worked out; return the name's ending.

    Raises
    ------
    BadInputError
        No name, or one that does not end in any of `kinds`.
    FileError
        No such folder, or a folder of that name.
    """
    kind = path.suffix.lower()
    if not path.name or kind not in kinds:
        raise BadInputError(
            "There is no file name" if not path.name else "Unknown kind of file",
            field=option,
            got=repr("" if not path.name else path.name),
            wanted=f"a name that ends in {' or '.join(kinds)}",
        )
    if not path.parent.is_dir() or path.is_dir():
        raise FileError(
            "That is a folder" if path.is_dir() else "There is no such folder",
            field=option,
            got=str(path if path.is_dir() else path.parent),
            wanted="a file in a folder that exists",
        )
    return kind


def write_whole(path: Path, content: bytes | str) -> None:
    """Write a file beside its place and then move it there, so that nothing is half-written.

    Raises
    ------
    FileError
        The place can't be written.
    """
    with writing_whole(path) as file:
        file.write(content.encode() if isinstance(content, str) else content)


@contextmanager
def writing_whole(path: Path) -> Iterator[IO[bytes]]:
    """Do as `write_whole`, piece by piece; the file is there when the with block ends well.

    Raises
    ------
    FileError
        The place can't be written.
    """
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        raise _unwritable(path, error) from error
    try:
        with os.fdopen(handle, "wb") as file:
            yield file
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except OSError as error:
        raise _unwritable(path, error) from error
    finally:
        Path(name).unlink(missing_ok=True)


def make_folder(path: Path) -> None:
    """Make a folder for output, with those above it."""
    try:
        path.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise _unwritable(path, error) from error


def _unwritable(path: Path, error: OSError) -> FileError:
    return FileError(
        f"Can't write {path}: {error.strerror or error}",
        field="output",
        got=str(path),
        wanted="a place that exists and may be written",
    )
