"""Parts and placed components as triangle meshes that know the true surfaces they stand for. Millimetres."""

from planbook.shape.solids.building import (
    body_of_cuts,
    mesh_as_made,
    mesh_of,
    mesh_of_component,
    mesh_of_cuts,
    spaces_of,
    stand_of,
)
from planbook.shape.solids.mesh import Mesh
from planbook.shape.solids.surfaces import Surfaces

__all__ = [
    "Mesh",
    "Surfaces",
    "body_of_cuts",
    "mesh_as_made",
    "mesh_of",
    "mesh_of_component",
    "mesh_of_cuts",
    "spaces_of",
    "stand_of",
]
