"""A scene for the engine: a driven bar with hooks, rings below, a floor.

The bar is a heavy body on three driven slides. A body moved by hand would not do: what touches
it would not be told its speed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from benchmarks.link_level.sizes import LinkSize

Start = Literal["hung", "laid"]
"""Hanging clear of the floor, or laid out straight to one side."""

_BAR_KG: Final = 1000.0
_GAP: Final = 1.6
"""Between neighbouring strands of one connector, in outside widths of a link."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """How the engine reckons contacts: what an artefact could come from.

    Parameters
    ----------
    step_s : float
        Time step [s].
    soft_s : float
        Time in which a contact pushes an overlap out [s]; at least twice the step.
    link_friction, floor_friction : float
        Coefficients of friction [-]; both are guesses.
    arc_sides : int
        Chords that stand for each half circle of a link, odd.
    """

    step_s: float = 0.001
    soft_s: float = 0.004
    link_friction: float = 0.25
    floor_friction: float = 0.7
    arc_sides: int = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What hangs.

    Parameters
    ----------
    size : LinkSize
        The links.
    strands : int
        1 straight, 2 a doubled piece, 4 two doubled pieces on one connector. The bend itself is
        not simulated: each strand begins at a fixed ring beside the others'.
    links : int
        Links of each strand.
    start : {'hung', 'laid'}
        How it begins.
    contact : Contact
        How contacts are reckoned.
    """

    size: LinkSize
    strands: int = 1
    links: int = 20
    start: Start = "hung"
    contact: Contact = Contact()

    @property
    def length_m(self) -> float:
        """Length of a strand [m]."""
        return self.links * self.size.pitch_m

    @property
    def per_m_kg(self) -> float:
        """Mass that leaves the floor per metre of lift [kg/m]."""
        return self.strands * self.size.density_kg_per_m

    @property
    def first_m(self) -> float:
        """Height of the bearing point to begin with [m].

        Hung, the lowest link is half a pitch clear; laid, the chain's line is at rest height.
        """
        if self.start == "hung":
            return self.length_m + self.size.wire_m + self.size.pitch_m / 2
        return self._lying_m + self.size.wire_m / 2

    @property
    def _lying_m(self) -> float:
        """Height of a laid chain's line: links roll over by 45 degrees, either way in turn."""
        return (self.size.width_m + self.size.wire_m) / 2 * math.sqrt(0.5) + self.size.wire_m / 2

    def xml(self) -> str:
        """Describe the scene to the engine. The bar's zero is the bearing point at height 0."""
        c = self.contact
        return f"""<mujoco>
<option timestep="{c.step_s}" cone="elliptic" impratio="4" integrator="Euler" solver="Newton"
 iterations="30" tolerance="1e-9" gravity="0 0 -9.80665"/>
<size memory="64M"/>
<default><geom type="capsule" size="{self.size.wire_m / 2}" condim="3"
 friction="{c.link_friction} 0 0" solref="{c.soft_s} 1" solimp="0.99 0.998 0.001"/></default>
<worldbody>
<geom name="floor" type="plane" size="9 9 1" priority="1" friction="{c.floor_friction} 0 0"/>
<body name="bar" gravcomp="1"><inertial pos="0 0 0" mass="{_BAR_KG}" diaginertia="1 1 1"/>
<joint type="slide" axis="1 0 0"/><joint type="slide" axis="0 1 0"/>
<joint type="slide" axis="0 0 1"/>
{"".join(self._ring(self._hook(k), mass_kg=0.0) for k in range(self.strands))}</body>
{"".join(self._link(k, i) for k in range(self.strands) for i in range(self.links))}
</worldbody>
<contact><exclude body1="world" body2="bar"/></contact>
</mujoco>"""

    def _place(self, strand: int) -> tuple[float, float]:
        """Where a strand hangs [m], seen from above."""
        apart = _GAP * (self.size.width_m + 2 * self.size.wire_m)
        across = (strand % 2 - 0.5) * apart if self.strands > 1 else 0.0
        along = (strand // 2 - 0.5) * apart if self.strands > 2 else 0.0
        return across, along

    def _hook(self, strand: int) -> str:
        """Frame of a fixed ring whose wire bears the first link at the bar's zero."""
        x, y = self._place(strand)
        centre = -self.size.wire_m / 2
        up = (self.size.pitch_m + self.size.wire_m) / 2
        if self.start == "hung":
            return f'pos="{x} {y} {centre + up}" zaxis="0 0 1"'
        return f'pos="{x - up - centre} {y} {centre}" euler="-45 90 0"'

    def _link(self, strand: int, index: int) -> str:
        """One free ring; neighbours are turned a quarter round."""
        x, y = self._place(strand)
        along = (index + 0.5) * self.size.pitch_m
        turned = 90 if index % 2 == 0 else 0
        if self.start == "hung":
            frame = f'pos="{x} {y} {self.first_m - along}" euler="0 0 {turned}"'
        else:
            frame = f'pos="{x + along} {y} {self._lying_m}" euler="{turned - 45} 90 0"'
        ring = self._ring("", mass_kg=self.size.link_kg)
        return f"<body {frame}><freejoint/>{ring}</body>\n"

    def _ring(self, frame: str, *, mass_kg: float) -> str:
        """Capsules round one link, massed by their length."""
        line = self.size.wire_line(self.contact.arc_sides)
        sides = list(zip(line, line[1:] + line[:1], strict=True))
        lengths = [((a - c) ** 2 + (b - d) ** 2) ** 0.5 for (a, b), (c, d) in sides]
        geoms = "".join(
            f'<geom fromto="{a} 0 {b} {c} 0 {d}" mass="{mass_kg * length / sum(lengths)}"/>'
            for ((a, b), (c, d)), length in zip(sides, lengths, strict=True)
        )
        return f"<frame {frame}>{geoms}</frame>" if frame else geoms
