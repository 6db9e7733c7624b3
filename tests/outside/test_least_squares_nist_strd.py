"""The fit's numbers and standard errors against certified least squares.

National Institute of Standards and Technology, Statistical Reference Datasets, linear regression,
data set Norris (calibration of ozone monitors; 36 observations, two numbers; difficulty: lower).
Seen: data and certified values as they stand in the test suites of several numerical libraries,
which agree with each other; not on the institute's own page.

A scale is turned into the monitor: one endless strand of 1 kg/m hung straight, no pile, so the
reading is straight weight + factor x height. Both are left all but free.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from topheavy.mechanics.chain import Chain
from topheavy.mechanics.ground import Ground
from topheavy.mechanics.hang import Straight
from topheavy.mechanics.rig import End
from topheavy.mechanics.scale_fit import ScaleFit, fit_readings
from topheavy.mechanics.scale_model import FACTOR, STRAIGHT, ScaleData, seen_by_scale

X = np.fromstring(
    "0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 "
    "447.5 11.6 556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 "
    "229.2 669.1 448.9 0.5",
    sep=" ",
)
Y = np.fromstring(
    "0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 "
    "448.9 10.8 557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 "
    "228.9 668.4 449.2 0.2",
    sep=" ",
)
INTERCEPT, INTERCEPT_SE = -0.262323073774029, 0.232818234301152
SLOPE, SLOPE_SE = 1.00211681802045, 0.429796848199937e-03
RESIDUAL_SD = 0.884796396144373
RESIDUAL_SUM = 26.6173985294224


@pytest.fixture(scope="module")
def fit() -> ScaleFit:
    chain = Chain(links=20_000_000, pitch_m=1e-4, density_kg_per_m=1.0)
    level = Ground(
        raising_pitches=0.0, raising_rule_u_pitches=0.0, strand_u_pitches=0.0, lay="piled"
    )
    data = ScaleData(
        height_m=X,
        height_u_m=np.zeros(X.size),
        mass_kg=Y,
        mass_u_kg=np.full(X.size, RESIDUAL_SD),
        way=np.zeros(X.size, dtype=np.intp),
        stated=np.array([1.0, 0.0, 0.0, 0.0, 1.0, 0.0]),
        stated_u=np.array([100.0, 0.0, 1e4, 0.0, 0.0, 0.0]),
    )
    seen = seen_by_scale((End((Straight(chain=chain),)),), level, on_floor=False)
    return fit_readings(seen, data)


def test_norris_estimates(fit: ScaleFit) -> None:
    """Certified estimates of both numbers, to six digits."""
    assert fit.values[STRAIGHT] == pytest.approx(INTERCEPT, rel=1e-6)
    assert fit.values[FACTOR] == pytest.approx(SLOPE, rel=1e-9)


def test_norris_standard_errors(fit: ScaleFit) -> None:
    """Certified standard deviations of the estimates, to six digits."""
    u = np.sqrt(np.diag(fit.covariance))
    assert u[STRAIGHT] == pytest.approx(INTERCEPT_SE, rel=1e-6)
    assert u[FACTOR] == pytest.approx(SLOPE_SE, rel=1e-6)


def test_norris_residuals(fit: ScaleFit) -> None:
    """Certified residual sum of squares; in noise of the certified residual SD it is 34."""
    assert np.sum((Y - fit.fitted_kg) ** 2) == pytest.approx(RESIDUAL_SUM, rel=1e-6)
    checks = fit.checks()
    assert checks.scatter == pytest.approx(34.0, rel=1e-6)
    assert checks.scatter_freedom == 34


def test_norris_data_as_typed_gives_the_certified_line() -> None:
    """A slip in the data above would show: scipy's own regression on it, to nine digits."""
    line = stats.linregress(X, Y)
    assert (line.slope, line.intercept) == pytest.approx((SLOPE, INTERCEPT), rel=1e-9)
    assert (line.stderr, line.intercept_stderr) == pytest.approx((SLOPE_SE, INTERCEPT_SE), rel=1e-9)
