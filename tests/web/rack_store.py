"""A store with the demo gym and work for today, and browsers signed in to it."""

from __future__ import annotations

import uuid
from typing import TYPE_CHECKING, Any

from tests.store.samples import NAME, put
from tests.web.serving import store_client
from topheavy.gym.lifts import lift_named
from topheavy.gymfile import demo_gym
from topheavy.rigging.target import Ask
from topheavy.services.cautions import cautions_when_testing
from topheavy.services.chosen import Parts, build_chosen, choose
from topheavy.services.rig import Place, RigQuestion
from topheavy.services.work import WorkAsk, work_with
from topheavy.store.accounts import NewAccount, add_account, server_secret
from topheavy.store.gyms import Change, load_gym
from topheavy.store.sign_ins import begin_sign_in
from topheavy.store.work import give_work
from topheavy.training.days import day_named
from topheavy.training.session import Plan
from topheavy.web.access.keys import Keys, hashed, new_token
from topheavy.web.desk import now, today

if TYPE_CHECKING:
    from starlette.testclient import TestClient

    from topheavy.services.cautions import Caution
    from topheavy.store.opening import Store
    from topheavy.training.work import Work

COACH = "coach"


def work_for(lifter: str = "Osric", *, kind: str = "heavy") -> Work:
    """Bench press work for today on a rig of the demo gym; singles up to a max for ``test``."""
    gym, lift = demo_gym(), lift_named("bench press")
    place = Place(gym=gym, lifter=gym.lifter(lifter), lift=lift, station=gym.station("bench 1"))
    left, right = {"Osric": (("A1", "A2"), ("A3", "A4")), "Pip": (("A1",), ("A2",))}[lifter]
    parts = Parts(
        left=left,
        right=right,
        feeder="ring strap",
        setting="7",
        connector="10 mm screw link",
        plates_kg=(25.0, 10.0) if lifter == "Osric" else (10.0,),
    )
    question = RigQuestion(place=place, ask=Ask(bottom_kg=90.0, top_kg=110.0))
    built = build_chosen(question, choose(place, parts))
    plan = None if kind == "test" else Plan.of(day_named(kind))
    ask = WorkAsk(id=str(uuid.uuid4()), day=today(), plan=plan)
    return work_with(place, built, built.rig.straight_weight_kg, ask, cautions_for_bench())


def cautions_for_bench() -> tuple[Caution, ...]:
    """What is always said of a bench."""
    return tuple(cautions_when_testing(lift_named("bench press")))


def stocked(store: Store, *works: Work) -> int:
    """Put the demo gym into a store, give work, and say the gym's number."""
    put(store)
    gym_id = load_gym(store, NAME).id
    for work in works:
        give_work(store, gym_id, work, Change(author=COACH, at=now()))
    return gym_id


def cookie_of(store: Store, name: str, *, lifter: str = "") -> tuple[str, str]:
    """Make an account, sign it in, and give the cookie that says so."""
    gym_id = load_gym(store, NAME).id
    role: Any = "lifter" if lifter else "coach"
    new = NewAccount(
        name=name,
        role=role,
        lifter=lifter,
        gym_id=gym_id if lifter else None,
        passphrase="-",  # noqa: S106 - the hash of none
    )
    account = add_account(store, new, by=COACH, at=now())
    token = new_token()
    begin_sign_in(store, account, hashed(token), now())
    keys = Keys(server_secret(store), secure=False)
    return keys.name(), keys.sign(token)


def client_as(store: Store, name: str, *, lifter: str = "") -> TestClient:
    """A client that is signed in."""
    client = store_client(store)
    client.cookies.set(*cookie_of(store, name, lifter=lifter))
    return client


def entry(work: Work, step: int = 1, **values: Any) -> dict[str, Any]:
    """A set as a phone sends it."""
    return {"id": str(uuid.uuid4()), "work": work.id, "step": step, "reps": 3, **values}
