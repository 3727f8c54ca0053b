"""Random sound parts, as skeletons: the same features with other numbers, or in another order."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from hypothesis import strategies as st

SIZE = (400.0, 200.0, 30.0)
AXES = {"face": (0, 1, 2), "back": (0, 1, 2), "front_edge": (0, 2, 1), "rear_edge": (0, 2, 1), "left_end": (1, 2, 0)}


@dataclass(frozen=True)
class Skeleton:
    """What a feature says, without its numbers; `count` is how many dimensions state it."""

    kind: str
    face: str
    options: frozenset[str]
    count: int


_OPTIONS = {
    "hole": {"depth": 1, "counterbore": 2, "row": 1},
    "sunk_hole": {"row": 1},
    "slot": {"depth": 1},
    "groove": {"start": 1, "end": 1},
    "rabbet": {},
    "mortise": {"depth": 1, "round": 1, "row": 1},
    "opening": {"round": 1},
    "corner_notch": {"round": 1},
    "edge_notch": {"round": 1},
    "tenon": {"at": 2},
    "arc_slot": {},
    "ring_sector": {},
    "arc_ramp": {},
    "ring_of_holes": {"step": 1},
    "pocket": {},
    "ramp": {},
    "chamfer": {},
    "round_over": {},
}
_ALWAYS = {
    "hole": 3,
    "sunk_hole": 5,
    "slot": 4,
    "groove": 3,
    "rabbet": 2,
    "mortise": 4,
    "opening": 4,
    "corner_notch": 2,
    "edge_notch": 3,
    "tenon": 3,
    "arc_slot": 7,
    "ring_sector": 7,
    "arc_ramp": 10,
    "ring_of_holes": 5,
    "pocket": 5,
    "ramp": 7,
    "chamfer": 1,
    "round_over": 1,
}
_FLAT = ("face", "back")
NAMES = ("ash", "elm", "fir", "oak")


@st.composite
def skeletons(draw: st.DrawFn) -> Skeleton:
    """One feature of any kind with any of its options."""
    kind = draw(st.sampled_from(sorted(_ALWAYS)))
    everywhere = kind in ("hole", "sunk_hole", "slot", "mortise")
    face = draw(st.sampled_from(sorted(AXES) if everywhere else _FLAT))
    chosen = frozenset(draw(st.sets(st.sampled_from(sorted(_OPTIONS[kind]))))) if _OPTIONS[kind] else frozenset()
    return Skeleton(kind, face, chosen, _ALWAYS[kind] + sum(_OPTIONS[kind][option] for option in chosen))


def feature_of(skeleton: Skeleton, shares: Sequence[float], apart: float = 0.0) -> dict[str, Any]:
    """The feature with numbers: `shares` are three fractions in (0, 1), each moving one measure within safe bounds.

    All its measures are greater by `apart` (mm), so that two features need have none in common.
    """
    a, b, c = shares
    u, v, n = (SIZE[axis] for axis in AXES[skeleton.face])
    small = 4 + 4 * c

    def mm(number: float) -> str:
        return f"{number + apart:.3f} mm"

    def deg(number: float) -> str:
        return f"{number + apart:.3f} deg"

    at = (mm(u * (0.3 + 0.2 * a)), mm(v * (0.35 + 0.2 * b)))
    depth, angles = mm(n * (0.2 + 0.5 * c)), (deg(10 + 20 * a), deg(60 + 60 * b))
    around = {"count": 3, "circle": mm(60 + 10 * c), "start": angles[0]}
    optional: dict[str, Any] = {
        "depth": mm(n * (0.2 + 0.5 * c)),
        "counterbore": {"diameter": mm(small + 3), "depth": mm(n * 0.1)},
        "row": {"count": 2 + int(3 * b), "pitch": mm(u * 0.05), "along": "xyz"[AXES[skeleton.face][0]]},
        "start": mm(u * (0.05 + 0.1 * a)),
        "end": mm(u * (0.7 + 0.2 * b)),
        "round": mm(0.5 + c),
        "at": (mm(20 * a + 1), mm(5 * b + 1)),
        "step": {"around": around | {"step": deg(40 + 10 * c)}},
    }
    by_kind: dict[str, dict[str, Any]] = {
        "hole": {"hole": mm(small), "at": at},
        "sunk_hole": {"hole": mm(4), "at": at, "countersink": {"diameter": mm(5 + 3 * c)}},
        "slot": {"slot": mm(small), "start": at, "end": (mm(u * (0.6 + 0.2 * c)), at[1])},
        "groove": {"groove": mm(small), "along": "x", "at": mm(v * 0.3 * b + 1), "depth": mm(n * 0.4)},
        "rabbet": {"rabbet": mm(small), "edge": "front" if a < 0.5 else "left", "depth": mm(n * 0.4)},
        "mortise": {"mortise": (mm(u * 0.04), mm(v * 0.2)), "at": at},
        "opening": {"opening": (mm(u * 0.2), mm(v * 0.2)), "at": at},
        "corner_notch": {"notch": (mm(u * 0.1), mm(v * 0.1)), "corner": "rear_right" if a < 0.5 else "front_left"},
        "edge_notch": {"notch": (mm(u * 0.1), mm(v * 0.1)), "edge": "right", "start": at[1]},
        "arc_slot": {"arc_slot": mm(small), "at": at, "radius": mm(30 + 10 * c), "angles": angles, "depth": depth},
        "ring_sector": {"ring_sector": (mm(30), mm(40 + 10 * c)), "at": at, "angles": angles, "depth": depth},
        "arc_ramp": {
            "arc_ramp": (mm(n * (0.4 + 0.2 * c)), mm(n * 0.1)), "radii": (mm(31), mm(41 + 10 * c)), "at": at,
            "angles": angles,
        },
        "ring_of_holes": {"hole": mm(small), "at": at, "around": around},
        "pocket": {"pocket": _corners(at, (mm(u * 0.6), mm(v * 0.7))), "depth": depth},
        "ramp": {
            "ramp": (mm(1), mm(3 + 3 * c)), "along": "x", "start": at[0], "end": mm(u * 0.7), "at": at[1],
            "width": mm(small),
        },
        "chamfer": {"chamfer": mm(1 + c), "edge": "rear"},
        "round_over": {"round_over": mm(1 + c), "edge": "left" if a < 0.5 else "front"},
        "tenon": {"tenon": (mm(30 + small), mm(150), mm(15)), "end": "left"},
    }  # fmt: skip
    whole = {key: optional[key] for key in skeleton.options if key not in ("row", "step")}
    feature = by_kind[skeleton.kind] | whole | (optional["step"] if "step" in skeleton.options else {})
    if "row" in skeleton.options:
        feature["repeat"] = optional["row"]
    return feature if skeleton.kind == "tenon" else {**feature, "on": skeleton.face}


def _corners(near: tuple[str, str], far: tuple[str, str]) -> dict[str, Any]:
    """A triangle with a square corner at `near`."""
    return {"a": {"at": near}, "b": {"at": (far[0], near[1])}, "c": {"at": (near[0], far[1])}}


def part_of(named: Mapping[str, Skeleton], shares: Sequence[float]) -> dict[str, Any]:
    """A part of these features, in which no two measures have the same formula."""
    features = {name: feature_of(skeleton, shares, 0.013 * NAMES.index(name)) for name, skeleton in named.items()}
    return {"size": tuple(f"{size} mm" for size in SIZE), "features": features}


def named_skeletons() -> st.SearchStrategy[dict[str, Skeleton]]:
    """Up to four features by name."""
    return st.dictionaries(st.sampled_from(NAMES), skeletons(), max_size=4)


def all_shares() -> st.SearchStrategy[list[float]]:
    """Three fractions."""
    return st.lists(st.floats(0.01, 0.99), min_size=3, max_size=3)
