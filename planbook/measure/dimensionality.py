"""What sort of quantity a value is: the exponents of length, mass, time and angle.

Angle is a sort of its own: adding a ratio to an angle is a mistake that a builder pays for, so it is refused.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Dimensionality:
    """Exponents of the four base quantities (nanometre, kilogram, second, degree)."""

    length: int = 0
    mass: int = 0
    time: int = 0
    angle: int = 0

    def __mul__(self, other: Dimensionality) -> Dimensionality:
        return Dimensionality(
            self.length + other.length, self.mass + other.mass, self.time + other.time, self.angle + other.angle
        )

    def __pow__(self, exponent: int) -> Dimensionality:
        return Dimensionality(self.length * exponent, self.mass * exponent, self.time * exponent, self.angle * exponent)

    def __truediv__(self, other: Dimensionality) -> Dimensionality:
        return self * other**-1


SCALAR = Dimensionality()
LENGTH = Dimensionality(length=1)
AREA = Dimensionality(length=2)
VOLUME = Dimensionality(length=3)
ANGLE = Dimensionality(angle=1)
MASS = Dimensionality(mass=1)
TIME = Dimensionality(time=1)
FORCE = Dimensionality(length=1, mass=1, time=-2)
TORQUE = Dimensionality(length=2, mass=1, time=-2)
PRESSURE = Dimensionality(length=-1, mass=1, time=-2)
DENSITY = Dimensionality(length=-3, mass=1)
ACCELERATION = Dimensionality(length=1, time=-2)
STIFFNESS = Dimensionality(mass=1, time=-2)
"""Force for each length: of a spring, or of a load that lies along a beam."""
INERTIA = Dimensionality(length=4)
