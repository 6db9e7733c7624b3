"""The description of the API against the API itself, by schemathesis, a general-purpose library.

It makes questions out of the description, right ones and wrong ones; nothing may break down, every
answer must be one that is described, and every mistake of the one shape.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from schemathesis.checks import CHECKS, load_all_checks

from tests.cli.calling import TINY
from tests.store.samples import put
from tests.web.serving import CHOSEN, store_client, written
from topheavy.planfile import demo_plan_text
from topheavy.store.opening import opened
from topheavy.web.app import make_app

if TYPE_CHECKING:
    from collections.abc import Iterator

    from starlette.testclient import TestClient

load_all_checks()
CHECKED: Final = CHECKS.get_by_names(
    [
        "not_a_server_error",
        "status_code_conformance",
        "content_type_conformance",
        "response_headers_conformance",
        "response_schema_conformance",
        "negative_data_rejection",
        "unsupported_method",
    ]
)
DESCRIBED: Final = {
    "lifter": "Ansa", "left": ["A1+A2"], "right": ["A3+A4"], "feeder": "strap:2",
    "connector": "screw link", "straight": "65kg",
}  # fmt: skip
RIGHT_ONLY: Final = [one for one in CHECKED if "negative" not in one.__name__]
RIGHT: Final[dict[str, dict[str, Any]]] = {
    "/api/rig/chosen": CHOSEN,
    "/api/rig/stage": CHOSEN,
    "/api/curve": DESCRIBED,
    "/api/catalogue": {"size": "5/8 in"},
    "/api/strength": {"lifter": "Ansa"},
}
"""A question that is answered at once, for some routes; the slow ones are asked elsewhere."""

USUAL: Final = settings(
    max_examples=6,
    deadline=None,
    derandomize=True,
    database=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)


schema = schemathesis.openapi.from_dict(make_app().openapi())
schema.config.phases.coverage.enabled = False


@pytest.fixture(scope="module")
def guest(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """Whoever sits at the machine, before a store with the tiny gym."""
    with opened(str(tmp_path_factory.mktemp("api") / "store.sqlite")) as store:
        put(store, tomllib.loads(Path(TINY).read_text(encoding="utf-8")))
        found = store_client(store)
        found.headers.update(written(found))
        yield found


@schemathesis.serializer("application/toml")
def as_it_is(_: Any, value: Any) -> bytes:
    """A plan is sent as it stands."""
    return value if isinstance(value, bytes) else str(value).encode("utf-8", "replace")


schemathesis.openapi.media_type(
    "application/toml",
    st.one_of(
        st.sampled_from([demo_plan_text(), "[plan]", "x = 1"]), st.text().filter(str.isascii)
    ).map(str.encode),
)


def ask(case: Any, guest: TestClient, checks: list[Any]) -> None:
    """Ask, and hold the answer against the description."""
    words = case.as_transport_kwargs(base_url="http://127.0.0.1")
    words["headers"] = {**dict(words["headers"]), **guest.headers}
    words.pop("cookies", None)
    if isinstance(words.get("data"), bytes):
        words["content"] = words.pop("data")
    case.validate_response(guest.request(**words), checks=checks)


@schema.parametrize()
@USUAL
def test_whatever_is_asked_is_answered_as_described(case: Any, guest: TestClient) -> None:
    # The token of a write is always sent here, and of sets each is answered for itself.
    ask(case, guest, RIGHT_ONLY if case.method == "POST" else CHECKED)


@schema.include(path=list(RIGHT)).parametrize()
@USUAL
def test_right_questions_with_a_change_too(case: Any, guest: TestClient) -> None:
    changes = sorted((case.query or {}).items())[:1]
    case.query = {**RIGHT[case.path], **dict(changes)}
    ask(case, guest, RIGHT_ONLY)
