"""Gallons, litres and hours as people type them: what something lasts for, what a meter shows."""

from decimal import Decimal

from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.sampling.use import MEASURES, Amount


def read_amount(text: str) -> str:
    """An amount as it is kept: a plain figure and its measure; empty where nothing was typed.

    Raises:
        Fault: It is no plain figure with a measure.
    """
    if not text.strip():
        return ""
    try:
        return str(Amount.parse(text))
    except ValueError:
        raise Fault(
            _(
                "{text} can’t be read: enter a plain figure and its measure, such as 1000 gal, "
                "without marks between the thousands. The measures are: {known}; a gallon is a US "
                "gallon."
            ).format(text=text.strip(), known=", ".join(MEASURES))
        ) from None


def read_use(of: str, a_day: str, months: int, measured: str = "") -> dict[str, str]:
    """What something lasts for and how much of it is used a day, as a book keeps them.

    Args:
        of: What it lasts for, as typed; may be empty.
        a_day: How much of that is used in a day, likewise.
        months: How often it is seen to, by time.
        measured: `volume` or `hours` where it lasts for one of them alone.

    Raises:
        Fault: One can't be read, or they don't go together.
    """
    kept = {"use": read_amount(of), "a_day": read_amount(a_day)}
    lasts, used = (Amount.read(one) for one in kept.values())
    if lasts and not months:
        raise Fault(_("What lasts for so much is seen to: 0 months, never, does not go with that."))
    if lasts and measured not in {"", lasts.kind}:
        known = ", ".join(one for one in MEASURES if Amount(Decimal(1), one).kind == measured)
        said = _("{lasts} does not tell how long it lasts; here the measures are: {known}.")
        raise Fault(said.format(lasts=lasts, known=known))
    if used and not lasts:
        raise Fault(_("Say what it lasts for, such as 1000 gal, beside what is used a day."))
    if lasts and used and lasts.kind != used.kind:
        raise Fault(
            _(
                "{lasts} and {used} a day can’t be compared: both are volumes, or both hours."
            ).format(lasts=lasts, used=used)
        )
    if lasts and not lasts.number:
        raise Fault(_("Nothing lasts for {lasts}: leave it empty.").format(lasts=lasts))
    return kept
