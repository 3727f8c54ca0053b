"""Parts and placed components as triangle meshes that know the true surfaces they stand for. Millimetres."""

from planbook.shape.solids.building import mesh_of, mesh_of_component, mesh_of_cuts
from planbook.shape.solids.mesh import Mesh
from planbook.shape.solids.surfaces import Surfaces

__all__ = ["Mesh", "Surfaces", "mesh_of", "mesh_of_component", "mesh_of_cuts"]
