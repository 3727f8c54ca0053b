"""What it costs to move an assembly through its travel, in every edition, against measuring all pairs at all places.

    python benchmarks/motion.py [SET [DRIVER FROM TO]]

Prints CPU seconds and the ratio. All pairs are measured at a few places only and the rest is reckoned from them.
"""

from __future__ import annotations

import itertools
import sys
import time
from collections.abc import Callable
from pathlib import Path

from planbook.design import Overrides, evaluate, plan_design
from planbook.measure.dimensionality import ANGLE
from planbook.motion.pinching import pinches
from planbook.motion.sweep import REACH, Sweep
from planbook.motion.travel import Course, Mover, Place, run
from planbook.shape import shape_parts
from planbook.source import Door, load
from planbook.source.text import Text

WORKSPACE = Path(__file__).parents[1]
STEPS = 60
SAMPLED = 3
AIM = 30.0
"""CPU seconds for the desk in all its editions."""


def main() -> None:
    key, driver, start, end = (sys.argv[1:] + ["sewing-desk", "lever.angle", "0", "180"][len(sys.argv) - 1 :])[:4]
    content, findings = load(Door(WORKSPACE), key)
    assert content is not None, findings
    plan, _ = plan_design(content)
    assert plan is not None
    total = naive = fingers = 0.0
    for market in dict.fromkeys(str(edition.market) for edition in content.plan_set.editions.values()):
        design, _ = evaluate(plan, Overrides(market))
        assert design is not None
        parts, _ = shape_parts(content, design)
        course = Course("travel", driver, ANGLE, float(start), float(end), STEPS)
        mover = Mover(content, plan, design, parts, course)
        places: list[Place] = []
        total += cpu(lambda: places.extend(run(mover, Text("travel"))[0]))  # noqa: B023
        sweep = Sweep(places)
        fingers += cpu(lambda: list(pinches(sweep)))  # noqa: B023
        sweep = Sweep(places)
        total += cpu(lambda: list(sweep.nearest()))  # noqa: B023
        few = [places[at * STEPS // SAMPLED] for at in range(SAMPLED)]
        naive += cpu(lambda: measure_all(Sweep(few))) * len(places) / SAMPLED  # noqa: B023
        print(f"{market}: {len(sweep.solids)} components, {len(places)} places")
    print(f"  swept, all editions     {total:6.2f} s   (aim: at most {AIM:.0f} s)")
    print(f"  fingers tried           {fingers:6.2f} s")
    print(f"  all pairs, all places   {naive:6.2f} s   ratio {naive / total:6.1f}   (reckoned from {SAMPLED} places)")


def measure_all(sweep: Sweep) -> None:
    for one, other in itertools.combinations(sweep.solids, 2):
        for place in range(SAMPLED):
            a, b = (sweep.solids[name].body.transform(sweep.paths[name].matrix(place)) for name in (one, other))
            a.min_gap(b, REACH)


def cpu(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


if __name__ == "__main__":
    main()
