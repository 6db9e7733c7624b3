"""Chain simulated link by link: rigid rings held to each other by contact only.

``python -m benchmarks.link_level`` runs every scene in MuJoCo, a general-purpose physics engine,
and writes what the bar carried to ``tests/outside/data/link_level/``. It needs
``requirements/physics.txt``; nothing in topheavy does.

A simulation is not a measurement. Two models of the same rigid bodies may agree and both be
wrong about real chain: rough links, rubber floors, how a coach lays a pile. A scale under the
hung bar settles that.
"""
