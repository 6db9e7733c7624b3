"""Whatever is asked, it is answered or refused in the one shape; nothing breaks down."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.web.serving import CHOSEN, at, client

JUNK = st.one_of(
    st.text(max_size=12),
    st.sampled_from(
        ["", " ", "0", "-1", "1e308", "1e99", "nan", "inf", "5/0", "%", "\x00", "{}", "<b>", "A1",
         "\u0663", "65 kg", "999999999 kg", "1/3 lb", "60%", "0.001%", "100000%"]
    ),
)  # fmt: skip
TAGS = st.lists(
    st.one_of(st.sampled_from(["A1", "A2", "A3", "A4", "H1", "H2", "R1"]), JUNK), max_size=4
)
FIELDS: dict[str, st.SearchStrategy[Any]] = {
    "lifter": st.one_of(st.just("Ansa"), JUNK),
    "lift": st.one_of(st.sampled_from(["bench press", "squat", "bench"]), JUNK),
    "station": st.one_of(st.sampled_from(["the bench", "the rack"]), JUNK),
    "way": st.one_of(st.sampled_from(["loads", "match"]), JUNK),
    "bottom": st.one_of(st.integers(1, 400).map(str), JUNK),
    "top": st.one_of(st.integers(1, 400).map(str), JUNK),
    "effort": JUNK,
    "units": st.one_of(st.sampled_from(["kg", "lb"]), JUNK),
    "left": TAGS,
    "right": TAGS,
    "hang": st.one_of(st.sampled_from(["doubled", "draped", "straight"]), JUNK),
    "feeder": JUNK,
    "setting": st.one_of(st.sampled_from(["1", "2", "3"]), JUNK),
    "connector": st.one_of(st.sampled_from(["screw link", "toy clip", "snap hook"]), JUNK),
    "plate": st.lists(st.one_of(st.sampled_from(["20", "10", "5 kg", "45 lb"]), JUNK), max_size=4),
}
PATHS = ("/api/rig/chosen", "/api/rig/stage", "/api/rig/motion", "/part/chosen")


@given(
    path=st.sampled_from(PATHS),
    change=st.lists(st.sampled_from(sorted(FIELDS)), max_size=3, unique=True).flatmap(
        lambda names: st.fixed_dictionaries({name: FIELDS[name] for name in names})
    ),
)
@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_chosen_rig(path: str, change: dict[str, Any]) -> None:
    answer = client().get(at(path, {**CHOSEN, **change}))
    assert answer.status_code in {200, 422}, (path, change, answer.text[:300])
    if path.startswith("/api/") and answer.status_code == 422:
        assert answer.headers["content-type"] == "application/problem+json"
        assert answer.json()["detail"].endswith((".", "?", "!"))
