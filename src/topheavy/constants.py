"""Physical constants."""

from typing import Final

STANDARD_GRAVITY_M_PER_S2: Final = 9.80665
"""Standard acceleration of gravity [m/s2]: 3rd CGPM (1901), declaration 2."""

STEEL_DENSITY_KG_PER_M3: Final = 7850.0
"""Density of carbon steel [kg/m3]: EN 1991-1-1:2002, table A.4 gives 77.0 to 78.5 kN/m3."""
