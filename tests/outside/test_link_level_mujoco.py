"""The curves against a link-by-link simulation of four sizes of chain.

MuJoCo 4.0.0, a general-purpose physics engine: each link a free ring of eight capsules, held to
its neighbours by contact only, a heavy bar driven up and down, one, two or four strands.
``python -m benchmarks.link_level`` made the tables in ``data/link_level/``; each says how. Seen:
computed; a simulation, not a measurement.

DIN 764 13 x 45 and 16 x 56, DIN 766 10 x 28, and the long link DIN 763 10 x 65 (3.5, 2.8 and 6.5
wire diameters inside). The default pile heights of `topheavy.mechanics.ground` were set from these
heaps and an older set, so the mean agreeing is no proof; that one number of pitches and its
uncertainty hold for each size, each number of strands and each setting of the engine, is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from benchmarks.link_level.model import Scene
from benchmarks.link_level.sizes import LONG, MEDIUM, SHORT, SIZES
from benchmarks.link_level.summary import SIZE, heaps, pick_up, read
from topheavy.constants import STANDARD_GRAVITY_M_PER_S2
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Straight, Suspension
from topheavy.mechanics.moving import LOOSE_PILE
from topheavy.mechanics.rig import End, Rig
from topheavy.mechanics.uncertainty import InputSpread, load_budget

if TYPE_CHECKING:
    from benchmarks.link_level.sizes import LinkSize
    from benchmarks.link_level.summary import Heap
    from topheavy.mechanics.hang import Way

WAYS: tuple[Way, ...] = ("raising", "lowering")
HEAPS = heaps(read("slow"))
OTHERWISE = heaps(read("artefact"))
COMMON = [size for size in SIZES if size is not LONG]


def of(heap_list: list[Heap], way: Way, *names: str) -> list[Heap]:
    return [heap for heap in heap_list if heap.way == way and heap.size.name in names]


def mean(heap_list: list[Heap]) -> float:
    assert heap_list
    return float(np.mean([heap.mean for heap in heap_list]))


def rule(way: Way, heap: Heap) -> tuple[float, float, float]:
    """Our height, the rule's uncertainty and one strand's own, in pitches of a heap's links."""
    ground, chain = Ground(), heap.size.chain(heap.links)
    ours = ground.pile_m(chain, way), ground.rule_u_m(chain, way), ground.strand_u_m(chain, way)
    height, rule_u, strand_u = (metres / chain.pitch_m for metres in ours)
    return height, rule_u, strand_u


@pytest.mark.parametrize("row", read("still"), ids=lambda row: f"{row['size']} x{row['strands']}")
def test_hung_still_the_bar_carries_every_link(row: dict[str, str]) -> None:
    """Table still.csv, to a gram: density x length.

    Its lower end is half a pitch clear of the floor, so the last link's middle should be a pitch
    and a wire above it: contacts that give lengthen eight pitches by 0.15 mm at most, 0.1 %.
    """
    size, strands, links = SIZE[row["size"]], int(row["strands"]), int(row["links"])
    chain = size.chain(links)
    end = End(tuple(Straight(chain=chain) for _ in range(strands)))
    assert float(end.curve(way="still").at(9.0)) == pytest.approx(float(row["load_kg"]), abs=0.0011)
    stiff_m = size.pitch_m + size.wire_m
    assert float(row["last_link_m"]) == pytest.approx(stiff_m, abs=0.00015)


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_rule_for_the_pile_holds_for_each_size(size: LinkSize, way: Way) -> None:
    """Table slow.csv, mean of each size's heaps: common links within one rule uncertainty.

    The long link, which lies flatter, within two and a quarter.
    """
    found = of(HEAPS, way, size.name)
    height, rule_u, _ = rule(way, found[0])
    most = 2.25 if size is LONG else 1.0
    assert abs(mean(found) - height) < most * rule_u


@pytest.mark.parametrize("way", WAYS)
def test_common_links_share_one_height_in_pitches(way: Way) -> None:
    """Mean of the three common sizes is ours to 0.1 pitch; not so in millimetres.

    In pitches the sizes lie within 0.45 of each other; the largest pitch is twice the smallest.
    """
    by_size = [mean(of(HEAPS, way, size.name)) for size in COMMON]
    height, _, _ = rule(way, HEAPS[0])
    assert np.mean(by_size) == pytest.approx(height, abs=0.1)
    assert np.ptp(by_size) < 0.45


@pytest.mark.parametrize("way", WAYS)
def test_each_strand_has_its_heap(way: Way) -> None:
    """Two strands of a piece, or four of two pieces on one connector, each stand on such a heap.

    Means by number of strands, of the sizes that were run with four, within 0.2 pitches of each
    other: heaps of one kind differ by as much from start to start (half the widest range 0.28).
    """
    found = of([h for h in HEAPS if h.links != 32], way, MEDIUM.name, SHORT.name)
    by_strands = [mean([heap for heap in found if heap.strands == n]) for n in (1, 2, 4)]
    assert np.ptp(by_strands) < 0.2


@pytest.mark.parametrize("way", WAYS)
def test_both_parts_of_the_spread_cover_every_height(way: Way) -> None:
    """Table slow.csv, every heap and height: 95 in 100 within two combined uncertainties.

    On n strands the heaps' own parts average: rule and strand / sqrt(n).
    """
    inside = []
    for heap in (heap for heap in HEAPS if heap.way == way):
        height, rule_u, strand_u = rule(way, heap)
        u = np.hypot(rule_u, strand_u / np.sqrt(heap.strands))
        inside += [abs(pitches - height) < 2 * u for pitches in heap.pitches]
    assert np.mean(inside) > 0.95


@pytest.mark.parametrize("way", WAYS)
def test_engine_settings_move_a_heap_no_more_than_another_start(way: Way) -> None:
    """Table artefact.csv against the same chain as run: each within 0.25 pitches.

    Half the step with contacts twice as hard, contacts twice as soft, rounder links, link friction
    0.15 and 0.4, half the speed. Three starts as run lie up to 0.28 apart.
    """
    as_run = [h for h in of(HEAPS, way, MEDIUM.name) if (h.strands, h.links) == (1, 20)]
    others = [heap for heap in OTHERWISE if heap.way == way]
    assert len(others) == 6
    for heap in others:
        assert heap.mean == pytest.approx(mean(as_run), abs=0.25), heap.variant


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("size", COMMON, ids=lambda size: size.name)
def test_loads_follow_the_doubled_curve(size: LinkSize, way: Way) -> None:
    """Table slow.csv, two strands of 14 links, against a piece of 28 links hung doubled.

    Root mean square gap within our own standard uncertainty of the piles' part of the load.
    """
    wanted = (size.name, "2", way)
    rows = [r for r in read("slow") if (r["size"], r["strands"], r["way"]) == wanted]
    heights, loads = (np.array([float(r[k]) for r in rows]) for k in ("height_m", "load_kg"))
    lies = heights < 12.5 * size.pitch_m
    rig = Rig(
        0.0,
        0.0,
        End((Doubled(chains=(size.chain(28),), suspension=Suspension(feeder_m=0.5)),)),
        End(),
    )
    at_m = heights[lies] + 0.5
    gap = loads[lies] - rig.curve(way=way).at(at_m)
    budget = load_budget(rig, at_m, Ground(), way, InputSpread(height_u_m=0.0))
    assert np.sqrt(np.mean(gap**2)) < np.mean(budget.grouped()["pile height"])


@pytest.mark.parametrize("row", read("dragged"), ids=lambda r: f"{r['size']} {r['height_m']}")
def test_dragged_slack(row: dict[str, str]) -> None:
    """Table dragged.csv: the closed form from the floor lies up to 1.05 links too high.

    Side pull agrees to 5 % or half a link's weight. A laid chain's line runs half a link's width
    above the floor; reckoned from there, the closed form is right to 0.45 links.
    """
    size, height_m = SIZE[row["size"]], float(row["height_m"])
    chain = size.chain(int(row["links"]))
    end = End((Straight(chain=chain),))
    lying_m = (size.width_m + size.wire_m) / 2 * np.sqrt(0.5) + size.wire_m / 2
    ground = Ground(lay="dragged", friction=float(row["friction"]))
    raised = Ground(lay="dragged", friction=float(row["friction"]), surface_m=lying_m)
    seen_kg = float(row["load_kg"])
    assert 0.0 < (float(end.curve(ground).at(height_m)) - seen_kg) / size.link_kg < 1.05
    assert abs(float(end.curve(raised).at(height_m)) - seen_kg) / size.link_kg < 0.45
    side_kg = end.side_pull_n(height_m, ground) / STANDARD_GRAVITY_M_PER_S2
    assert side_kg == pytest.approx(float(row["side_kg"]), rel=0.05, abs=0.5 * size.link_kg)


def coefficients(way: Way, speed: str) -> list[float]:
    return [pick_up(r) for r in read("fast") if (r["way"], r["speed_m_per_s"]) == (way, speed)]


@pytest.mark.parametrize(("speed", "low", "high"), [("1.000", 1.2, 1.45), ("1.500", 1.1, 1.35)])
def test_picking_up_takes_the_full_term_and_more(speed: str, low: float, high: float) -> None:
    """Table fast.csv, six heaps of two sizes: 1.32 and 1.22 of density x speed2, SD 0.08.

    So the full term (1) is nearer than the half. What is above it falls as speed rises: drag in
    the heap, not told apart here from friction that was guessed.
    """
    found = coefficients("raising", speed)
    assert len(found) == 6
    assert low < np.mean(found) < high
    assert min(found) > LOOSE_PILE


@pytest.mark.parametrize(("speed", "links"), [("0.250", 0.3), ("0.500", 0.75)])
def test_at_lifting_speeds_the_excess_is_under_a_link(speed: str, links: float) -> None:
    """Table fast.csv: 1.85 and 1.76 of density x speed2 at 0.25 and 0.5 m/s.

    Above our full term that is under 0.3 and 0.75 links of the lighter chain.
    """
    excess_m = (np.array(coefficients("raising", speed)) - LOOSE_PILE) * float(speed) ** 2
    excess_m /= STANDARD_GRAVITY_M_PER_S2
    assert np.max(excess_m) / SHORT.pitch_m < 1.25 * links
    assert np.mean(excess_m) / SHORT.pitch_m < links


def test_lowered_fast_the_bar_carries_less_than_slow() -> None:
    """Table fast.csv, on the way down: less at every speed, by 0.5 to 2.3 of density x speed2.

    Ours leaves speed out there, so it errs high, never low. Not adopted: no measurement shows it.
    """
    for speed in ("0.500", "1.000", "1.500"):
        assert max(coefficients("lowering", speed)) < 0


def test_short_hang_in_the_engine() -> None:
    """Run here where the engine is: six links weigh what our curve says, to a gram."""
    pytest.importorskip("mujoco", reason="MuJoCo is not installed: see requirements/physics.txt")
    from benchmarks.link_level.drive import Drive  # noqa: PLC0415 - imports the engine

    scene = Scene(size=MEDIUM, links=6)
    drive = Drive(scene)
    load_kg, side_kg = drive.hold(0.6)
    end = End((Straight(chain=MEDIUM.chain(6)),))
    assert load_kg == pytest.approx(float(end.curve(way="still").at(1.0)), abs=0.001)
    assert side_kg < 0.001
    assert drive.lowest_m() == pytest.approx(MEDIUM.pitch_m + MEDIUM.wire_m, abs=0.00015)
