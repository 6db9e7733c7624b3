"""Writing what was asked for: whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from topheavy.errors import FileError


def write_whole(path: Path, content: bytes | str) -> None:
    """Write a file beside its place and then move it there, so that nothing is half-written.

    Raises
    ------
    FileError
        The place can't be written.
    """
    data = content.encode() if isinstance(content, str) else content
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as error:
        raise _unwritable(path, error) from error
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(name).chmod(0o644)
        Path(name).replace(path)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise _unwritable(path, error) from error


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
