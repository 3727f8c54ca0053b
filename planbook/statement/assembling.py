"""The assembly and its fits as stated: where each component stands, and which dimensions make which gap."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planbook.dimension.audit import Audit
from planbook.shape.geometry import Vec
from planbook.shape.model import Component
from planbook.source.content import Content
from planbook.statement.model import ComponentStated, FitStated


def state_assembly(components: Iterable[Component]) -> tuple[ComponentStated, ...]:
    """In the order in which they are put together."""
    return tuple(_component(each) for each in components)


def state_fits(audit: Audit, content: Content) -> Mapping[str, FitStated]:
    """By name. What is bought has no dimension."""
    because = {str(name): str(model.because) for name, model in content.fits.items()}
    return {
        each.fit.name: FitStated(
            name=each.fit.name,
            dimensions=tuple(_id(term.measure.name) for term in each.fit.terms if term.measure.name.startswith("dim.")),
            least=float(each.fit.least),
            most=float(each.fit.most),
            because=because[each.fit.name],
            fitted=each.fit.fitted,
        )
        for each in audit.fits
    }


def _id(path: str) -> str:
    """`dim.top.well.length` as `top/well/length`; a corner of an outline keeps its dot: `top/outline.heel/x`."""
    names = path.removeprefix("dim.").replace(".outline.", ".outline/").split(".")
    return "/".join(names).replace("/outline/", "/outline.")


def _component(each: Component) -> ComponentStated:
    at = each.placement
    return ComponentStated(
        name=each.name,
        part=each.part.key if each.part else "",
        origin=_triple(at.origin),
        x=_triple(at.x),
        y=_triple(at.y),
        z=_triple(at.z),
        mirrored=at.mirrored,
        rod=(float(each.rod_radius), float(each.rod_length), float(each.rod_bore)),
    )


def _triple(vector: Vec) -> tuple[float, float, float]:
    return float(vector.x), float(vector.y), float(vector.z)
