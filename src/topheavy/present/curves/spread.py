"""Labels side by side: each as near to its own place as the others allow."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


def spread(
    wanted: Sequence[float], sizes: Sequence[float], room: tuple[float, float], gap: float
) -> list[float]:
    """Place labels along a line without overlap, their order kept.

    Parameters
    ----------
    wanted : sequence of float
        Where the middle of each would best be [drawing units], any order.
    sizes : sequence of float
        How long each is [drawing units].
    room : tuple of float
        Where the line begins and ends [drawing units]. Labels that are longer than it together
        overlap evenly at most by what is too much.
    gap : float
        Between neighbours [drawing units].

    Returns
    -------
    list of float
        The middle of each, in the order given; the sum of squared distances is least.

    Examples
    --------
    >>> spread([10.0, 12.0, 50.0], [8.0, 8.0, 8.0], (0.0, 60.0), 2.0)
    [6.0, 16.0, 50.0]
    """
    if not wanted:
        return []
    order = sorted(range(len(wanted)), key=lambda i: (wanted[i], i))
    total = sum(sizes) + gap * (len(sizes) - 1)
    gap -= max(0.0, total - (room[1] - room[0])) / max(1, len(sizes) - 1)
    steps, edge = [], 0.0
    for i in order:
        steps.append(edge + 0.5 * sizes[i])
        edge += sizes[i] + gap
    free = _rising([wanted[i] - step for i, step in zip(order, steps, strict=True)])
    least, most = room[0], max(room[0], room[1] - (edge - gap))
    placed = [0.0] * len(wanted)
    for i, step, start in zip(order, steps, free, strict=True):
        placed[i] = step + min(max(start, least), most)
    return placed


def _rising(values: Sequence[float]) -> list[float]:
    """The nearest sequence that never falls, by pooling neighbours that do."""
    pools: list[tuple[float, int]] = []
    for value in values:
        pools.append((value, 1))
        while len(pools) > 1 and pools[-2][0] > pools[-1][0]:
            (last, many), (first, few) = pools.pop(), pools.pop()
            pools.append(((last * many + first * few) / (many + few), many + few))
    return [mean for mean, count in pools for _ in range(count)]
