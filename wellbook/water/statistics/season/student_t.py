"""Student's t for whole degrees of freedom, in closed form.

Abramowitz and Stegun, Handbook of Mathematical Functions (1964), 26.7.3 and 26.7.4.
"""

from math import atan, cos, pi, sin, sqrt

_HALVINGS = 60


def student_p(t: float, freedom: int) -> float:
    """Two-sided probability of a t at least so far from zero.

    Raises:
        ValueError: There is no degree of freedom.
    """
    if freedom < 1:
        raise ValueError("Student's t needs a degree of freedom")
    angle = atan(abs(t) / sqrt(freedom))
    if freedom == 1:
        return 1 - 2 * angle / pi
    odd = freedom % 2
    term = cos(angle) if odd else 1.0
    total = term
    for k in range(2 + odd, freedom - 1, 2):
        term *= cos(angle) ** 2 * (k - 1) / k
        total += term
    inside = 2 / pi * (angle + sin(angle) * total) if odd else sin(angle) * total
    return max(0.0, 1 - inside)


def student_t(p: float, freedom: int) -> float:
    """The t beyond which, on both sides, so large a probability lies."""
    low, high = 0.0, 1.0
    while student_p(high, freedom) > p:
        high *= 2
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if student_p(middle, freedom) > p else (low, middle)
    return (low + high) / 2
