"""An impact as JSON for programs: every part of either version, what is bought, and steps."""

from __future__ import annotations

from typing import Any

from planbook.impact import EditionImpact, Measure, PartImpact, Range, Spot, say_stages, say_turn


def impact_document(impact: EditionImpact | None) -> dict[str, Any]:
    """`parts`, `items` and `steps` of one edition; all empty for an edition that only one version has."""
    if impact is None:
        return {"parts": [], "items": [], "steps": []}
    return {
        "parts": [_part(each) for each in impact.parts],
        "items": [
            {"list": each.list, "id": each.id, "more": each.more, "asks": each.asks, "words": each.words}
            for each in impact.items
        ],
        "steps": [
            {
                "key": each.key,
                "number": each.number,
                "parts": list(each.parts),
                "reworded": each.reworded,
                "remeasured": each.remeasured,
                "gone": each.gone,
            }
            for each in impact.steps
        ],
    }


def _part(part: PartImpact) -> dict[str, Any]:
    """Number and impact; what else there is to say only where it says something."""
    said: dict[str, Any] = {
        "because": part.because,
        "works": [{"feature": each.feature, "words": each.words} for each in part.works],
        "measures": [_measure(each) for each in part.measures],
        "goes": [_spot(each) for each in part.goes],
        "lacks": [_spot(each) for each in part.lacks],
        "turned": say_turn(part.turn) if part.turn else "",
        "moved": list(part.moved) if any(part.moved) else [],
        "more": list(part.more) if any(part.more) else [],
        "left": list(part.left) if any(part.left) else [],
        "mates": list(part.mates),
        "out_of_reach": [
            {"feature": each.feature, "free": round(each.free, 3), "needs": each.needs, "tool": each.tool}
            for each in part.out_of_reach
        ],
        "stages": {stage.value: words for stage, words in say_stages(part).items()},
    }
    return {"number": part.number, "impact": part.impact.value} | {name: value for name, value in said.items() if value}


def _measure(measure: Measure) -> dict[str, Any]:
    return {
        "dimension": measure.dimension,
        "unit": measure.unit,
        "keep": [measure.keep.low, measure.keep.high],
        "outside": [_range(each) for each in measure.outside],
    }


def _range(each: Range) -> dict[str, Any]:
    return {"low": each.low, "high": each.high, "impact": each.impact.value}


def _spot(spot: Spot) -> dict[str, Any]:
    """Millimetres and cubic millimetres, in the part's own axes."""
    return {
        "feature": spot.feature,
        "volume": round(spot.volume, 1),
        "low": [round(value, 3) for value in spot.low],
        "high": [round(value, 3) for value in spot.high],
    }
