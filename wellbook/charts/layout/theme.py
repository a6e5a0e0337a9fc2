"""Colours and sizes of charts on a light screen, a dark screen, sharper ones and paper.

The hues are those that Okabe and Ito chose to be told apart by colour-blind readers (Color
Universal Design, 2008), and of them only those with a contrast of 3:1 on the background
(WCAG 2.2, 1.4.11); text is 4.5:1 (1.4.3). Colour is never the only difference: shape and dash
come first.
"""

from dataclasses import dataclass, replace

from wellbook.water.values.limits import LimitKind

BLUE, SKY, VERMILLION, ORANGE, GREEN = "#0072B2", "#56B4E9", "#D55E00", "#E69F00", "#009E73"
_BINDING = frozenset({LimitKind.HEALTH, LimitKind.ACTION})


@dataclass(frozen=True, slots=True)
class Theme:
    """How a chart looks.

    Attributes:
        paper: Background.
        ink: Text, and marks of the second series.
        soft: Lesser text, event lines, limits that are not about health.
        rule: Faint lines.
        tones: Seasons: left blank, darkest, between; at most a tenth away from the paper.
        fan: Where a trend goes on to; darker than every season.
        over: Behind the figures above a limit about health; hardly darker than the paper.
        first: Marks of the first series, and its trend.
        limit: Limits about health.
        accent: The suggested window on the wheel.
        size: Height of the text in points.
    """

    name: str
    paper: str
    ink: str
    soft: str
    rule: str
    tones: tuple[str, str, str]
    fan: str
    over: str
    first: str
    limit: str
    accent: str
    size: float = 9.0

    def of_limit(self, kind: LimitKind) -> str:
        """Colour of a limit's line."""
        return self.limit if kind in _BINDING else self.soft

    def of_series(self, *, second: bool) -> str:
        """Colour of a series' marks."""
        return self.ink if second else self.first

    def faint(self, colour: str) -> str:
        """The colour half way to the paper: solid, because paper knows no transparency."""
        halves = (
            (int(colour[i : i + 2], 16) + int(self.paper[i : i + 2], 16)) // 2 for i in (1, 3, 5)
        )
        return "#" + "".join(f"{half:02x}" for half in halves)


LIGHT = Theme(
    name="light",
    paper="#ffffff",
    ink="#1a1a1a",
    soft="#595959",
    rule="#dcdcdc",
    tones=("#ffffff", "#e8ebef", "#f5f3ee"),
    fan="#cfd3d9",
    over="#fdf1e8",
    first=BLUE,
    limit=VERMILLION,
    accent=GREEN,
)
DARK = Theme(
    name="dark",
    paper="#1e1e1e",
    ink="#e8e8e8",
    soft="#b4b4b4",
    rule="#3c3c3c",
    tones=("#1e1e1e", "#2f3338", "#272623"),
    fan="#45494f",
    over="#33261d",
    first=SKY,
    limit=ORANGE,
    accent=GREEN,
)
BLACK_ON_WHITE = replace(
    LIGHT,
    name="black on white",
    ink="#000000",
    soft="#404040",
    rule="#c4c4c4",
    first="#004a80",
    limit="#a03c00",
    accent="#006b4e",
)
WHITE_ON_BLACK = Theme(
    name="white on black",
    paper="#000000",
    ink="#ffffff",
    soft="#d0d0d0",
    rule="#333333",
    tones=("#000000", "#191a1c", "#101010"),
    fan="#3a3d42",
    over="#221408",
    first="#7cc8f7",
    limit="#ffb733",
    accent=GREEN,
)
PRINT = Theme(
    name="print",
    paper="#ffffff",
    ink="#000000",
    soft="#4d4d4d",
    rule="#d9d9d9",
    tones=("#ffffff", "#e8e8e8", "#f5f5f5"),
    fan="#cccccc",
    over="#faf3ee",
    first=BLUE,
    limit="#7a3000",  # vermillion so dark that in grey it is no lighter than any other line
    accent=GREEN,
    size=8.0,
)
