"""Page two of the field sheet: the rules that differ from bottle to bottle, custody, cautions."""

from collections.abc import Iterator, Sequence
from typing import Any

from reportlab.platypus import Paragraph, Spacer, Table, TableStyle

from wellbook.export.field_hours import GRID, HEAD, LABEL, STRONG, TEXT, boxes, heading, text
from wellbook.pdf import style
from wellbook.pdf.letters import markup
from wellbook.planning.rounds import Round
from wellbook.support.translation import _
from wellbook.water.cautions.cautions import Cautions
from wellbook.water.values.bottles import FIRST_DRAW, Bottle
from wellbook.water.values.catalogue import Catalogue

_SMALL = TEXT.clone("field small", fontSize=8.2, leading=10.6)
_SMALL_STRONG = STRONG.clone("field small strong", fontSize=8.2, leading=10.6)
_POINT = _SMALL.clone("field point", leftIndent=11, spaceAfter=1)
_NAMED = 8  # parameters that are named on a bottle; more would not fit


def title(point: str) -> list[Any]:
    """The head of page two; with the name of the tap where several are drawn."""
    said = _("{point}: bottle by bottle, in this order").format(point=point)
    return [text(said if point else _("Bottle by bottle, in this order"), HEAD), Spacer(1, 3)]


def page(
    one: Round, catalogue: Catalogue, cautions: Cautions, width: float, said: Sequence[str] = ()
) -> list[Any]:
    """Everything on page two; `said` are cautions of this well and day."""
    return [
        _bottles(one, catalogue, width),
        Spacer(1, 4),
        text(
            _("All bottles travel cold, between ice packs, dry in a bag, and are not frozen."), TEXT
        ),
        *_on_partners(one),
        *heading(_("From hand to hand")),
        boxes(
            [
                [
                    _("Sample number"),
                    _("Drawn by (name)"),
                    _("Signature"),
                    _("Day and time of the draw"),
                ],
                [_("Handed over to"), _("Handed over by"), _("Signature"), _("Day and time")],
                [
                    _("Received at the lab by"),
                    _("Temperature on receipt"),
                    _("Signature"),
                    _("Day and time"),
                ],
                [
                    _("Bacteria test started"),
                    _("Number of bottles"),
                    _("Seal, condition"),
                    _("Remarks"),
                ],
            ],
            width,
            36,
        ),
        *heading(_("Take care")),
        *(
            Paragraph(markup(line), _POINT, bulletText="•")
            for line in dict.fromkeys((*said, *_cautions(one, cautions)))
        ),
        *heading(_("Notes")),
        boxes([[""]], width, 64),
    ]


def _on_partners(one: Round) -> list[Any]:
    if all(bottle.draw != FIRST_DRAW for bottle, _unused in one.bottles):
        return []
    said = _(
        "What is drawn first is drawn once more after flushing: only both together tell whether it "
        "comes from the pipes or from the well. Ask the lab for both bottles."
    )
    return [Spacer(1, 3), text(said, TEXT)]


def _bottles(one: Round, catalogue: Catalogue, width: float) -> Table:
    heads = (
        "",
        _("Bottle and what it is for"),
        _("Aerator"),
        _("Before"),
        _("Rinse"),
        _("Fill"),
        _("Filled at"),
    )
    rows: list[list[Any]] = [[text(head, LABEL) for head in heads]]
    rows += [
        [
            text(str(place), STRONG),
            [text(bottle.name, _SMALL_STRONG), text(_served(keys, catalogue), LABEL)],
            text(bottle.aerator.upper(), _SMALL_STRONG),
            text(bottle.before, _SMALL),
            text(_rinse(bottle), _SMALL_STRONG if bottle.rinse == "never" else _SMALL),
            text(bottle.fill, _SMALL),
            "",
        ]
        for place, (bottle, keys) in enumerate(one.bottles, start=1)
    ]
    shares = (0.04, 0.2, 0.09, 0.28, 0.11, 0.18, 0.1)
    table = Table(rows, colWidths=[width * share for share in shares])
    table.setStyle(TableStyle([*GRID, ("LINEBELOW", (0, 0), (-1, 0), 1.2, style.INK)]))
    return table


def _served(keys: tuple[str, ...], catalogue: Catalogue) -> str:
    names = [catalogue.parameters[key].name for key in keys]
    more = len(names) - _NAMED
    named = ", ".join(names[:_NAMED])
    return _("{said} and {more} more").format(said=named, more=more) if more > 0 else named


def _rinse(bottle: Bottle) -> str:
    return _("NEVER") if bottle.rinse == "never" else _(bottle.rinse).capitalize()


def _cautions(one: Round, cautions: Cautions) -> Iterator[str]:
    keys = {key for _unused, served in one.bottles for key in served}
    yield _(
        "Where the lab’s own sheet says otherwise, it comes first. Use only bottles from the lab."
    )
    if any(bottle.key in {"preserved", "vials"} for bottle, _unused in one.bottles):
        yield _(
            "Acid in a bottle burns skin and eyes: gloves on, open it away from the face, and wash "
            "off splashes with plenty of water."
        )
    if "methane" in keys:
        yield cautions.of["methane"].over
    yield cautions.situations["well_pit"].text
    yield cautions.situations["wellhead"].text
    yield _(
        "A sample with chlorine in it says nothing about bacteria. "
        "One result describes one day; your local health department answers questions about it."
    )
