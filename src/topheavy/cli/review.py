"""`topheavy review`: what the log says, lifter by lifter, and what to do next week."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from topheavy.cli.log_list import day_in, lift_name
from topheavy.cli.options import JsonOption, UnitsOption, name_in, unit_system
from topheavy.cli.stored import StoredGymOption

if TYPE_CHECKING:
    from topheavy.present.review.rows import ReviewView
    from topheavy.units import UnitSystem

LifterOption = Annotated[
    str | None, typer.Option("--lifter", metavar="NAME", help="Only this lifter, and all of it.")
]
LiftOption = Annotated[str | None, typer.Option("--lift", metavar="LIFT", help="Only this lift.")]
SinceOption = Annotated[
    str | None,
    typer.Option("--since", metavar="DAY", help="From this day on; else half a year: 2026-07-01."),
]
UntilOption = Annotated[
    str | None, typer.Option("--until", metavar="DAY", help="Up to this day; else the last set's.")
]
NoiseOption = Annotated[
    str | None,
    typer.Option(
        "--noise",
        metavar="PERCENT",
        help="How well a single repeats: 3.5% unless you say, 1.4% in trained men.",
    ),
]
PdfOption = Annotated[
    Path | None,
    typer.Option("--pdf", metavar="FILE", help="Print it too, a page a lifter and lift (.pdf)."),
]
TodayOption = Annotated[
    str | None, typer.Option("--today", metavar="DAY", help="The day it is; else the clock's.")
]


def review(
    lifter: LifterOption = None,
    lift: LiftOption = None,
    since: SinceOption = None,
    until: UntilOption = None,
    noise: NoiseOption = None,
    pdf: PdfOption = None,
    gym: StoredGymOption = "",
    today: TodayOption = None,
    units: UnitsOption = None,
    as_json: JsonOption = False,
) -> None:
    """Review the log: trend, bests, work, misses, next week.

    Sets with chain and without stand on equal terms: each as the straight
    single it stands for, with its range. What is within the noise of a single
    is called neither progress nor loss.

    \b
    Examples
      topheavy review
      topheavy review --lifter Osric --since 2026-07-01
      topheavy review --lifter Pip --lift squat --pdf pip.pdf
      topheavy review --noise 1.4% --json
    """
    from topheavy.cli.show import print_json, print_view
    from topheavy.cli.stored import name_of, the_store
    from topheavy.cli.today import the_day
    from topheavy.cli.waiting import waiting
    from topheavy.present.review.view import view_review
    from topheavy.services.review import answer_review
    from topheavy.store.gyms import load_gym
    from topheavy.store.reviewing import review_question
    from topheavy.store.sets import Wanted

    _check_pdf(pdf)
    named = name_in(lifter, "--lifter")
    with the_store() as store:
        house = load_gym(store, name_of(gym))
        wanted = Wanted(
            lifter=house.gym.lifter(named).name if named else "",
            lift=lift_name(lift),
            since=day_in(since, "--since"),
            until=day_in(until, "--until"),
        )
        question = review_question(
            store, house.id, house.gym, wanted, today=the_day(today), noise=_noise(noise)
        )
    shown = unit_system(units, house.gym)
    with waiting("Reading the log"):
        view = view_review(answer_review(question), shown)
    _write(pdf, view, shown)
    if as_json:
        print_json(view)
        return
    from topheavy.present.review.terminal import render_review

    print_view(view, render_review)
    if pdf is not None:
        print(f"Wrote {pdf}")


def _noise(text: str | None) -> float:
    from topheavy.training.review.trend import NOISE_WOMEN
    from topheavy.units import parse_quantity

    return NOISE_WOMEN if text is None else parse_quantity(text, "share", field="--noise")


def _check_pdf(pdf: Path | None) -> None:
    from topheavy.cli.files import check_output

    if pdf is not None:
        check_output(pdf, "--pdf", kinds=(".pdf",))


def _write(pdf: Path | None, view: ReviewView, units: UnitSystem) -> None:
    if pdf is None:
        return
    from topheavy.cli.files import write_whole
    from topheavy.present.review.sheet import review_pdf

    write_whole(pdf, review_pdf(view, units))
