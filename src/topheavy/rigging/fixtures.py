"""Every way the stock offers to hold chain on an end: style, feeder setting and connector."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from topheavy.mechanics.hang import Doubled, Draped, Straight, Suspension

if TYPE_CHECKING:
    from collections.abc import Sequence

    from topheavy.gym.stock import Connector, Feeder, FeederSetting, Stock
    from topheavy.mechanics.chain import Chain
    from topheavy.mechanics.hang import Hang, Strand
    from topheavy.rigging.limits import Limits, Style


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixture:
    """One way to hold chain, alike on both ends.

    Parameters
    ----------
    style : {'doubled', 'straight', 'draped'}
        How the chain hangs.
    feeder, setting, connector : Feeder, FeederSetting, Connector or None
        What a doubled hang hangs from; None for the other styles.
    most_hung_kg : float
        Chain that one end may carry, by the weakest rated part and the design factor [kg].
    """

    style: Style
    feeder: Feeder | None = None
    setting: FeederSetting | None = None
    connector: Connector | None = None
    most_hung_kg: float = math.inf

    @property
    def suspension(self) -> Suspension | None:
        """Feeder and connector as the mechanics know them."""
        if self.feeder is None or self.setting is None or self.connector is None:
            return None
        return Suspension(
            feeder_m=self.setting.length_m,
            feeder_density_kg_per_m=self.feeder.density_kg_per_m,
            feeder_whole_m=max(self.feeder.whole_m, self.setting.length_m),
            connector_m=self.connector.length_m,
            connector_kg=self.connector.mass_kg,
            feeder_u_m=self.feeder.setting_u_m,
        )

    @property
    def fold_m(self) -> float:
        """How far below the bar centre the chain begins [m]."""
        held = self.suspension
        return held.fold_m if held is not None else 0.0

    def hangs(self, chains: Sequence[Chain]) -> tuple[Hang, ...]:
        """Build what hangs on one end."""
        if not chains:
            return ()
        if self.style == "straight":
            return tuple(Straight(chain=chain) for chain in chains)
        held = self.suspension
        if held is None:
            return (Draped(chains=tuple(chains)),)
        return (Doubled(chains=tuple(chains), suspension=held),)

    def strands_of(self, chain: Chain) -> list[Strand]:
        """Strands of one piece, as the mechanics hang it from this fixture."""
        return [strand for hang in self.hangs([chain]) for strand in hang.strands_of(chain)]


def fixtures_of(stock: Stock, limits: Limits) -> tuple[Fixture, ...]:
    """List every fixture that the stock holds twice and whose parts are rated."""
    found = [Fixture(style=style) for style in limits.styles if style != "doubled"]
    if "doubled" in limits.styles:
        found += _doubled(stock, limits.design_factor)
    return tuple(found)


def _doubled(stock: Stock, design_factor: float) -> list[Fixture]:
    found = []
    for feeder in stock.feeders:
        for connector in stock.connectors:
            most_kg = most_hung_kg(feeder, connector, design_factor)
            if feeder.count < 2 or connector.count < 2 or most_kg is None:
                continue
            found += [
                Fixture(
                    style="doubled",
                    feeder=feeder,
                    setting=setting,
                    connector=connector,
                    most_hung_kg=most_kg,
                )
                for setting in feeder.settings
            ]
    return found


def most_hung_kg(feeder: Feeder, connector: Connector, design_factor: float) -> float | None:
    """Chain one end may carry [kg], at a `design_factor` [-] on the weakest part.

    None where a part is unrated.

    An assembly is rated as its weakest part: 49 CFR 393.108 (b).
    """
    if feeder.rating_kg is None or connector.rating_kg is None:
        return None
    by_connector = connector.rating_kg / design_factor
    by_feeder = feeder.rating_kg / design_factor - connector.mass_kg
    return max(0.0, min(by_connector, by_feeder))
