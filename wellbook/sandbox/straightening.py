"""A scan or a photo that lies askew, turned so that its lines are level.

The angle is the one at which the edges of letters fall into the fewest rows of pixels (the
projection profile of document analysis; common practice).
"""

from typing import Any

_SIDE = 1200  # pixels of the picture in which the angle is looked for
_STRIPS = 40  # upright ones; within one the slope is not seen
_MOST = 5.0  # degrees to either side; our own bounds
_STEP = 0.1
_LEAST = 0.15  # degrees; less than that is left as it is


def straightened(picture: Any) -> Any:
    """A picture of the same size whose lines are level."""
    from PIL import Image

    angle = slope(picture)
    if abs(angle) < _LEAST:
        return picture
    white = 255 if picture.mode == "L" else (255,) * len(picture.getbands())
    return picture.rotate(angle, resample=Image.Resampling.BICUBIC, fillcolor=white)


def slope(picture: Any) -> float:
    """Degrees by which lines fall towards the right."""
    import numpy as np

    small = picture.convert("L")
    small.thumbnail((_SIDE, _SIDE))
    light = np.asarray(small, dtype=float)
    if min(light.shape) < 2 * _STRIPS:
        return 0.0
    edges = np.abs(np.diff(light, axis=0))
    strips = np.array_split(edges, _STRIPS, axis=1)
    profiles = np.stack([strip.sum(axis=1) for strip in strips])
    profiles -= profiles.mean(axis=1, keepdims=True)
    middles = (np.arange(_STRIPS) - (_STRIPS - 1) / 2) * edges.shape[1] / _STRIPS
    best, most = 0.0, -1.0
    for angle in np.arange(-_MOST, _MOST + _STEP / 2, _STEP):
        shifts = np.rint(middles * np.tan(np.radians(angle))).astype(int)
        total = sum(np.roll(one, -by) for one, by in zip(profiles, shifts, strict=True))
        if (found := float((total**2).sum())) > most:
            best, most = float(angle), found
    return best
