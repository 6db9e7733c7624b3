"""The rep: against a solver, its energy, its limits, missed reps, batches, refusals."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.lifter.solved import Case, Solved, solve
from tests.mechanics.bands import read
from topheavy.constants import STANDARD_GRAVITY_M_PER_S2 as G
from topheavy.errors import BadInputError
from topheavy.gym.lifts import lift_named
from topheavy.gym.people import Travel
from topheavy.lifter.evidence import FullRange, Partial
from topheavy.lifter.motion.batch import RepBatch
from topheavy.lifter.motion.inputs import OnBar, RepLifter, StrengthRows
from topheavy.lifter.motion.joining import Joining
from topheavy.lifter.motion_model import BENCH, DEADLIFT, MODELS, SQUAT, Motion
from topheavy.lifter.rep import Ascents, simulate, simulate_batch
from topheavy.lifter.strength import strength_curve
from topheavy.mechanics.band import fit_band
from topheavy.mechanics.banded import Banded, Peg
from topheavy.mechanics.chain import Chain
from topheavy.mechanics.curve import LoadCurve
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Doubled, Suspension
from topheavy.mechanics.rig import End, Rig

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

NONE = LoadCurve.constant(0.0)
LIFTER = RepLifter(best_kg=120.0, bottom_m=0.80, top_m=1.20)
CHAIN = LoadCurve.strand(40.0, 0.9, 0.78)
BAND = LoadCurve.through([0.8, 0.9, 1.0, 1.2], [4.0, 9.0, 13.0, 18.0])


def one(on_bar: OnBar, motion: Motion | None = None, lifter: RepLifter = LIFTER) -> Ascents:
    return simulate_batch(RepBatch.of(lifter, on_bar, motion or BENCH.typical()))


def random_case(seed: int) -> Case:
    """A lifter and a rig within what people lift: chain, band, both or neither, light to limit."""
    dice = np.random.default_rng(seed)
    model = (BENCH, SQUAT, DEADLIFT)[seed % 3]
    best, bottom = dice.uniform(40.0, 280.0), dice.uniform(0.2, 1.0)
    travel = dice.uniform(model.travel_m.low, model.travel_m.high)
    hung = band = NONE
    if seed % 4 in (1, 3):
        density = best * dice.uniform(0.05, 0.4) / travel
        offset = bottom + travel * dice.uniform(-0.3, 0.4)
        hung = LoadCurve.strand(density, travel * dice.uniform(0.5, 1.4), offset)
    if seed % 4 in (2, 3):
        rise = best * dice.uniform(0.02, 0.15) * np.array([0.4, 0.8, 1.1, 1.3, 1.4])
        band = LoadCurve.through(bottom + travel * np.linspace(0.0, 1.0, 5), rise)
    mean_kg = (hung + band).mean(bottom, bottom + travel)
    return Case(
        motion=model.drawn(1, seed),
        best_kg=best,
        bottom_m=bottom,
        travel_m=travel,
        straight_kg=max(best * dice.uniform(0.35, 1.1) - mean_kg, 0.2 * best),
        hung=hung,
        band=band,
    )


class Endless:
    """A table that has no value."""

    def at(self, height_m: ArrayLike, /) -> NDArray[np.float64]:
        return np.full(np.shape(height_m), np.inf)


SEEDS = range(24)


@cache
def solved(seed: int) -> Solved:
    return solve(random_case(seed))


@pytest.mark.parametrize("seed", SEEDS)
def test_a_batch_is_within_a_thousandth_of_an_adaptive_solver(seed: int) -> None:
    """Duration and peak force against solve_ivp (DOP853, 1e-8), a random case each: 0.1 %."""
    case = random_case(seed)
    exact = solved(seed)
    lifter = RepLifter(
        best_kg=case.best_kg, bottom_m=case.bottom_m, top_m=case.bottom_m + case.travel_m
    )
    on_bar = OnBar(straight_kg=case.straight_kg, hung=case.hung, band=case.band)
    rep = one(on_bar, case.motion, lifter)
    assert bool(rep.completed[0]) == exact.completed
    assert rep.duration_s[0] == pytest.approx(exact.duration_s, rel=1e-3)
    assert rep.peak_force_n[0] == pytest.approx(exact.peak_force_n, rel=1e-3)
    assert rep.reached_part[0] * case.travel_m == pytest.approx(exact.height_m, abs=1e-3)


def test_the_random_cases_hold_missed_reps_too() -> None:
    made = [solved(seed).completed for seed in SEEDS]
    assert 0 < sum(not ok for ok in made) < 12


@settings(max_examples=60, deadline=None)
@given(
    share=st.floats(0.3, 1.15),
    density=st.floats(0.0, 120.0),
    connector=st.floats(0.0, 1.5),
    meets=st.floats(-0.2, 0.4),
    pull=st.floats(0.0, 40.0),
    pick_up=st.floats(0.5, 1.0),
    model=st.sampled_from(sorted(MODELS)),
)
def test_energy_balances_to_a_thousandth_in_every_rep(  # noqa: PLR0917
    share: float,
    density: float,
    connector: float,
    meets: float,
    pull: float,
    pick_up: float,
    model: str,
) -> None:
    """Work of the lifter = lifting, chain, bands, links jerked loose and motion left: 0.1 %."""
    hung = LoadCurve.strand(density, 0.8, 0.8 + meets) + LoadCurve.lump(connector, 0.8 + meets)
    on_bar = OnBar(
        straight_kg=share * 120.0,
        hung=hung,
        band=LoadCurve.through([0.8, 1.2], [0.2 * pull, pull]),
    )
    motion = replace(MODELS[model].typical(), pick_up=pick_up)
    ascent = one(on_bar, motion)
    assert abs(float(ascent.energy.imbalance[0])) < 1e-3


def test_energy_of_a_plain_rep_is_weight_times_travel() -> None:
    ascent = one(OnBar(straight_kg=80.0))
    limbs = 0.045 * 120.0
    assert ascent.energy.work_j[0] == pytest.approx((80.0 + limbs) * G * 0.4, rel=1e-4)
    assert ascent.energy.chain_j[0] == ascent.energy.band_j[0] == ascent.energy.lost_j[0] == 0.0


def test_links_jerked_loose_lose_half_of_twice_their_energy() -> None:
    """Lost = (k - 1/2) v^2 for each kilogram that joins: nothing at k = 1/2."""
    on_bar = OnBar(straight_kg=100.0, hung=CHAIN)
    kept = one(on_bar, replace(BENCH.typical(), pick_up=0.5))
    loose = one(on_bar, replace(BENCH.typical(), pick_up=1.0))
    assert kept.energy.lost_j[0] == pytest.approx(0.0, abs=1e-9)
    path = simulate(LIFTER, on_bar, BENCH.typical()).path
    square = 0.5 * (path.speed_m_per_s[1:] ** 2 + path.speed_m_per_s[:-1] ** 2)
    by_hand = 0.5 * float(np.sum(square * np.diff(CHAIN.at(path.height_m))))
    assert loose.energy.lost_j[0] == pytest.approx(by_hand, rel=5e-3)
    assert loose.duration_s[0] > kept.duration_s[0]


def test_no_chain_is_plain_weight() -> None:
    plain = one(OnBar(straight_kg=90.0))
    for hung in (LoadCurve.strand(0.0, 1.0, 0.5), LoadCurve.strand(30.0, 1.0, 1.20)):
        assert one(OnBar(straight_kg=90.0, hung=hung)).duration_s[0] == plain.duration_s[0]
    motion = replace(BENCH.typical(), pick_up=0.6)
    assert one(OnBar(straight_kg=90.0), motion).duration_s[0] == plain.duration_s[0]


@pytest.mark.parametrize("density", [1e-1, 1e-2, 1e-3])
def test_as_the_density_goes_to_nothing_so_does_its_effect(density: float) -> None:
    plain = one(OnBar(straight_kg=90.0)).duration_s[0]
    chain = one(OnBar(straight_kg=90.0, hung=LoadCurve.strand(density, 1.0, 0.8))).duration_s[0]
    assert 0 < chain / plain - 1 < 0.02 * density


def test_chain_that_hangs_clear_all_the_way_is_weight() -> None:
    clear = OnBar(straight_kg=60.0, hung=LoadCurve.constant(30.0))
    assert one(clear).duration_s[0] == pytest.approx(one(OnBar(straight_kg=90.0)).duration_s[0])


def test_a_band_pulls_but_has_no_mass() -> None:
    """The same load at rest: first acceleration is (F - load g) / mass, more by the mass it lacks.

    Just after the start force has not changed yet, so accelerations are as 1 / mass.
    """
    plates = simulate(LIFTER, OnBar(straight_kg=90.0), BENCH.typical()).path
    band = OnBar(straight_kg=60.0, band=LoadCurve.constant(30.0))
    pulled = simulate(LIFTER, band, BENCH.typical()).path
    limbs = 0.045 * 120.0
    ratio = pulled.speed_m_per_s[1] / plates.speed_m_per_s[1]
    assert ratio == pytest.approx((90.0 + limbs) / (60.0 + limbs), rel=0.01)


def test_a_band_stores_what_it_pulls() -> None:
    """Energy in the band = g x the integral of its pull."""
    ascent = one(OnBar(straight_kg=70.0, band=BAND))
    assert ascent.energy.band_j[0] == pytest.approx(BAND.work_j(0.8, 1.2), rel=1e-3)
    assert ascent.energy.lost_j[0] == 0.0


@given(share=st.floats(0.35, 0.99), more=st.floats(0.003, 0.3))
@settings(max_examples=30, deadline=None)
def test_more_weight_is_slower(share: float, more: float) -> None:
    loads = np.array([share, share + more]) * 120.0
    ascents = simulate_batch(
        RepBatch.of(LIFTER, OnBar(straight_kg=0.0), BENCH.typical(), straight_kg=loads)
    )
    if ascents.completed[1]:
        assert ascents.mean_m_per_s[1] < ascents.mean_m_per_s[0]
        assert ascents.peak_m_per_s[1] < ascents.peak_m_per_s[0]


def test_missed_reps_stop_lower_the_heavier() -> None:
    loads = 120.0 * np.array([1.0, 1.03, 1.06, 1.1, 1.15, 1.3])
    ascents = simulate_batch(
        RepBatch.of(LIFTER, OnBar(straight_kg=0.0), BENCH.typical(), straight_kg=loads)
    )
    assert ascents.completed.tolist() == [True, False, False, False, False, False]
    assert np.all(np.diff(ascents.reached_part) < 1e-12)
    assert ascents.reached_part[-1] == pytest.approx(0.0, abs=1e-9)
    missed = slice(1, 5)
    assert np.allclose(ascents.sticking.slowest_part[missed], ascents.reached_part[missed])
    assert np.isnan(ascents.sticking.end_s[missed]).all()
    assert np.isnan(ascents.slowing_share[missed]).all()


def test_a_load_that_can_not_be_held_at_the_bottom_never_starts() -> None:
    ascent = one(OnBar(straight_kg=300.0))
    assert not ascent.completed[0]
    assert ascent.duration_s[0] == pytest.approx(0.0, abs=1e-3)


def test_chain_heavier_than_the_lockout_is_missed_near_the_top() -> None:
    hung = LoadCurve.through([0.8, 1.0, 1.2], [0.0, 20.0, 180.0])
    ascent = one(OnBar(straight_kg=40.0, hung=hung))
    assert not ascent.completed[0]
    assert 0.6 < ascent.reached_part[0] < 1.0


def test_a_batch_keeps_its_order_and_equals_single_reps() -> None:
    loads = np.array([120.0, 40.0, 131.0, 90.0, 60.0])
    batch = simulate_batch(
        RepBatch.of(LIFTER, OnBar(straight_kg=0.0, hung=CHAIN), BENCH.typical(), straight_kg=loads)
    )
    for i, load in enumerate(loads):
        single = one(OnBar(straight_kg=float(load), hung=CHAIN))
        assert batch.completed[i] == single.completed[0]
        assert batch.duration_s[i] == pytest.approx(float(single.duration_s[0]), rel=1e-9)
        assert batch.energy.work_j[i] == pytest.approx(float(single.energy.work_j[0]), rel=1e-9)


def test_a_batch_larger_than_one_march_is_whole() -> None:
    count = 5000
    motion = BENCH.drawn(count, seed=2)
    whole = simulate_batch(RepBatch.of(LIFTER, OnBar(straight_kg=80.0, hung=CHAIN), motion))
    some = np.array([0, 17, 2047, 2048, 4999])
    few = simulate_batch(
        RepBatch.of(LIFTER, OnBar(straight_kg=80.0, hung=CHAIN), motion.taken(some))
    )
    assert whole.count == count
    assert whole.duration_s[some] == pytest.approx(few.duration_s, rel=1e-9)


def test_lifters_crossed_with_rigs_are_each_with_each() -> None:
    motion = BENCH.drawn(3, seed=5)
    rigs = [OnBar(straight_kg=0.0), OnBar(straight_kg=0.0, hung=CHAIN)]
    loads = np.arange(12.0).reshape(2, 2, 3) * 3.0 + 60.0
    crossed = simulate_batch(RepBatch.crossed(LIFTER, rigs, motion, loads))
    times = crossed.duration_s.reshape(2, 2, 3)
    for k, m, n in ((0, 0, 0), (1, 0, 2), (0, 1, 1), (1, 1, 2)):
        on_bar = replace(rigs[m], straight_kg=float(loads[k, m, n]))
        alone = one(on_bar, motion.taken(np.array([n])))
        assert times[k, m, n] == pytest.approx(float(alone.duration_s[0]), rel=1e-6)


def test_a_strength_curve_of_the_lifters_own_is_used() -> None:
    """The typical shape handed in as a table moves the bar as the typical shape does."""
    typical = BENCH.typical()
    heights = np.linspace(0.8, 1.2, 2001)
    table = LoadCurve.through(heights, 120.0 * typical.shape_at(np.linspace(0, 1, 2001))[0])
    own = replace(LIFTER, strength=table)
    plain = OnBar(straight_kg=110.0)
    assert one(plain, lifter=own).duration_s[0] == pytest.approx(
        float(one(plain).duration_s[0]), rel=1e-4
    )
    weak_top = LoadCurve.through([0.8, 1.0, 1.2], [130.0, 125.0, 105.0])
    stuck = one(plain, lifter=replace(LIFTER, strength=weak_top))
    assert not stuck.completed[0]
    assert stuck.reached_part[0] > 0.7


def test_many_strength_curves_go_with_as_many_lifters() -> None:
    heights = np.array([0.8, 0.95, 1.2])
    rows = StrengthRows(heights, np.array([[140.0, 120.0, 150.0], [150.0, 130.0, 150.0]]))
    lifter = replace(LIFTER, strength=rows)
    motion = BENCH.typical().spread(2)
    ascents = one(OnBar(straight_kg=115.0), motion, lifter)
    assert ascents.count == 2
    assert ascents.duration_s[1] < ascents.duration_s[0]


def test_easing_into_lockout_ends_at_rest_at_the_top() -> None:
    for share in (0.3, 0.6, 0.8, 1.0):
        path = simulate(LIFTER, OnBar(straight_kg=share * 120.0), BENCH.typical()).path
        assert path.height_m[-1] == pytest.approx(1.2, abs=1e-9)
        assert path.speed_m_per_s[-1] == pytest.approx(0.0, abs=1e-6)
        assert np.all(np.diff(path.time_s) > 0)
        assert np.all(np.diff(path.height_m) > -1e-12)


def test_speed_is_the_slope_of_height_and_force_moves_the_mass() -> None:
    """Newton's second law along the drawn path, by finite differences."""
    path = simulate(LIFTER, OnBar(straight_kg=90.0), BENCH.typical()).path
    inner = slice(4, -30)
    speed = np.gradient(path.height_m, path.time_s)
    assert np.allclose(speed[inner], path.speed_m_per_s[inner], atol=5e-3)
    gain = np.gradient(path.speed_m_per_s, path.time_s)
    mass = 90.0 + 0.045 * 120.0
    assert np.allclose(mass * (gain + G)[inner], path.force_n[inner], rtol=0.02)


def test_a_light_bar_is_pulled_down_into_lockout() -> None:
    """Below some load the bar must slow by more than free fall: speeds then differ by phase."""
    light, heavy = one(OnBar(straight_kg=48.0)), one(OnBar(straight_kg=110.0))
    assert light.propulsive_m_per_s[0] > light.mean_m_per_s[0]
    assert heavy.propulsive_m_per_s[0] == heavy.mean_m_per_s[0]


def test_top_load_counts_plates_chain_and_band() -> None:
    ascent = one(OnBar(straight_kg=50.0, hung=CHAIN, band=BAND))
    assert ascent.hung_top_kg[0] == pytest.approx(float(CHAIN.at(1.2)))
    assert ascent.top_load_kg[0] == pytest.approx(50.0 + float(CHAIN.at(1.2)) + 18.0)


def test_a_rig_brings_its_curves() -> None:
    chain = Chain(links=30, pitch_m=0.05, density_kg_per_m=5.5)
    end = End((Doubled(chains=(chain,), suspension=Suspension(feeder_m=0.75)),))
    rig = Rig(20.0, 60.0, end, end)
    ground = Ground()
    on_bar = OnBar.of_rig(rig, ground, name="doubled")
    assert on_bar.straight_kg == 80.0
    assert float(on_bar.load_at(1.2)) == pytest.approx(float(rig.curve(ground, "raising").at(1.2)))
    assert on_bar.hung_lowering is not None
    assert float(on_bar.hung_lowering.at(1.2)) < float(on_bar.hung.at(1.2))
    assert on_bar.band is None
    assert one(on_bar).completed[0]


def test_bands_from_above_carry_part_of_the_bar() -> None:
    """As light at rest, but with the mass of all the plates: between the two plain weights."""
    helped = one(OnBar(straight_kg=110.0, band=LoadCurve.constant(-20.0)))
    heavy, light = one(OnBar(straight_kg=110.0)), one(OnBar(straight_kg=90.0))
    assert heavy.mean_m_per_s[0] < helped.mean_m_per_s[0] < light.mean_m_per_s[0]
    assert abs(float(helped.energy.imbalance[0])) < 1e-3


@pytest.mark.parametrize("pick_up", [0.5, 0.8, 0.95])
@pytest.mark.parametrize("chain_kg", [5.0, 60.0])
def test_the_cubic_for_joining_links_is_close(pick_up: float, chain_kg: float) -> None:
    steady, k = np.array([60.0]), np.array([pick_up])
    cubic = Joining.of(steady, np.array([chain_kg]), k)
    for part in np.linspace(0, 1, 11):
        mass = steady + part * chain_kg
        power = float(mass[0]) ** (pick_up - 1.0)
        assert cubic.at(mass - steady)[0] == pytest.approx(
            power, rel=1e-3 if pick_up < 0.8 else 3e-4
        )


@pytest.mark.parametrize(
    ("field", "build"),
    [
        ("straight_kg", lambda: OnBar(straight_kg=-1.0)),
        ("best_kg", lambda: RepLifter(best_kg=0.0, bottom_m=0.8, top_m=1.2)),
        ("bottom_m", lambda: RepLifter(best_kg=100.0, bottom_m=1.2, top_m=1.2)),
        ("hung", lambda: one(OnBar(straight_kg=50.0, hung=LoadCurve.constant(-2.0)))),
        ("band", lambda: one(OnBar(straight_kg=50.0, band=Endless()))),
        (
            "strength",
            lambda: one(
                OnBar(straight_kg=50.0),
                lifter=replace(LIFTER, strength=LoadCurve.through([0.8, 1.2], [100.0, 0.0])),
            ),
        ),
        ("pick_up", lambda: one(OnBar(straight_kg=50.0), replace(BENCH.typical(), pick_up=0.3))),
        ("reserve", lambda: one(OnBar(straight_kg=50.0), replace(BENCH.typical(), reserve=0.0))),
        ("hill", lambda: one(OnBar(straight_kg=50.0), replace(BENCH.typical(), hill=-1.0))),
        (
            "activation_s",
            lambda: one(OnBar(straight_kg=50.0), replace(BENCH.typical(), activation_s=np.nan)),
        ),
    ],
)
def test_what_can_not_be_is_refused(field: str, build: Any) -> None:
    with pytest.raises(BadInputError) as error:
        build()
    assert error.value.field == field


def test_arrays_that_do_not_belong_together_are_refused() -> None:
    with pytest.raises(BadInputError, match="one for each"):
        simulate_batch(
            RepBatch.of(
                LIFTER, OnBar(straight_kg=0.0), BENCH.drawn(3), straight_kg=np.array([50.0, 60.0])
            )
        )
    with pytest.raises(BadInputError, match="one for each"):
        _ = replace(BENCH.drawn(3), hill=np.array([1.0, 2.0])).count


def test_a_fitted_strength_curve_and_its_samples_go_straight_in() -> None:
    """What is known of a lifter, as `strength_curve` makes it, is what the rep asks for."""
    travel = Travel(bottom_m=0.80, top_m=1.20)
    known = (FullRange(load_kg=120.0), Partial(height_m=1.05, load_kg=150.0))
    curve = strength_curve(lift_named("bench"), travel, known)
    own = replace(LIFTER, strength=curve)
    assert one(OnBar(straight_kg=110.0), lifter=own).completed[0]
    assert not one(OnBar(straight_kg=140.0), lifter=own).completed[0]
    rows = StrengthRows(curve.height_m, curve.samples(8, seed=1))
    many = one(
        OnBar(straight_kg=100.0, hung=CHAIN),
        BENCH.typical().spread(8),
        replace(LIFTER, strength=rows),
    )
    assert many.count == 8
    assert len(np.unique(many.peak_m_per_s.round(9))) > 1


def test_a_rig_with_bands_pulls_without_mass() -> None:
    band = Banded(band=fit_band(read()), peg=Peg(height_m=0.1), travel_m=(0.55, 1.1))
    end = End(bands=(band,))
    on_bar = OnBar.of_rig(Rig(20.0, 60.0, end, end), name="bands")
    low = RepLifter(best_kg=120.0, bottom_m=0.65, top_m=1.05)
    assert on_bar.band is not None
    assert float(on_bar.hung.at(1.0)) == 0.0
    assert float(on_bar.load_at(1.0)) == pytest.approx(
        80.0 + 2 * float(band.load_kg(1.0)), abs=0.02
    )
    ascent = one(on_bar, lifter=low)
    stored = 2 * (float(band.energy_j(1.05)) - float(band.energy_j(0.65)))
    assert float(ascent.energy.band_j[0]) == pytest.approx(stored, rel=2e-3)


@pytest.mark.parametrize("spare", [1e-4, 1e-3, 3e-3])
def test_a_rep_that_creeps_on_ends_when_time_is_up(spare: float) -> None:
    """Strength that is a hair above the load and fades ever so slowly: after 12 s it is a miss."""
    steady = replace(
        BENCH.typical(),
        fatigue_s=1e6,
        reserve=1.0,
        bottom_surplus=0.0,
        top_surplus=0.0,
        limb_share=0.0,
    )
    lifter = RepLifter(best_kg=100.0, bottom_m=0.8, top_m=1.2)
    batch = RepBatch.of(lifter, OnBar(straight_kg=100.0 * (1.0 - spare)), steady)
    ascents = simulate_batch(batch)
    assert not ascents.completed[0]
    assert float(ascents.duration_s[0]) == pytest.approx(12.0, abs=1e-6)
    assert 0.0 < float(ascents.reached_part[0]) < 0.5
    assert abs(float(ascents.energy.imbalance[0])) < 1e-3
