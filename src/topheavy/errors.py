"""One root error: what was wrong, where, what came, what would be right."""

from __future__ import annotations


class TopheavyError(Exception):
    """A mistake the user can mend.

    Parameters
    ----------
    message : str
        What was wrong, as a full sentence without a final stop.
    field : str, optional
        Where: an option, a function's parameter, or a path in a gym file
        such as ``stock.chain[2].links``.
    got : object, optional
        What came.
    wanted : str, optional
        What would be right.
    """

    def __init__(
        self,
        message: str,
        *,
        field: str | None = None,
        got: object | None = None,
        wanted: str | None = None,
    ) -> None:
        super().__init__(message)
        self.message = message
        self.field = field
        self.got = got
        self.wanted = wanted

    def lines(self) -> list[str]:
        """Tell it on lines of its own: the sentence, then where, got and wanted as far as known.

        Examples
        --------
        >>> print(*BadInputError("Too small", field="links", got=0).lines(), sep="; ")
        Too small.; where  links; got    0
        """
        stop = "" if self.message.endswith((".", "?", "!")) else "."
        told = [("where", self.field), ("got", self.got), ("wanted", self.wanted)]
        return [
            f"{self.message}{stop}",
            *(f"{name:<6} {value}" for name, value in told if value is not None),
        ]

    def __str__(self) -> str:
        parts = [self.message]
        if self.field is not None:
            parts.append(f"where: {self.field}")
        if self.got is not None:
            parts.append(f"got: {self.got}")
        if self.wanted is not None:
            parts.append(f"wanted: {self.wanted}")
        return "; ".join(parts)


class BadInputError(TopheavyError):
    """A value is missing, malformed, out of range or contradicts another."""


class NotInStockError(TopheavyError):
    """The gym does not have, or does not know, the thing that was named."""


class FileError(TopheavyError):
    """A file can't be read, parsed or written."""
