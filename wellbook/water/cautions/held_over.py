"""A finding holds until two samples in a row are below the limit: one is weak evidence."""

from collections.abc import Mapping, Sequence

from wellbook.water.cautions.advice import Advice, CautionText
from wellbook.water.cautions.cautions import Cautions
from wellbook.water.cautions.findings import Finding, Judged, finding_by


def held_over(
    sample: Sequence[Judged], before: Mapping[str, Judged], cautions: Cautions
) -> tuple[tuple[Judged, ...], tuple[Advice, ...]]:
    """What cautions go by at a point, and the word on what is held over.

    Args:
        sample: Latest readings and sums, each with all its judgements.
        before: Readings of the sampling day before the latest, by key of their parameter.
        cautions: The reference data.

    Returns:
        The latest readings, those in place of which the one before still counts exchanged for it,
        and what is said of these.
    """
    counted: list[Judged] = []
    names: list[str] = []
    for one in sample:
        earlier = before.get(one.parameter.key) if one.reading is not None else None
        if earlier is not None and _is_over(earlier, cautions) and not _is_over(one, cautions):
            counted.append(earlier)
            names.append(one.parameter.name)
        else:
            counted.append(one)
    if not names:
        return tuple(counted), ()
    text, source = cautions.behind["one_clean"]
    said = CautionText(text, because=tuple(names))
    return tuple(counted), (
        Advice(tuple(names), (said,), urgent=True, source=source, finding=Finding.OVER),
    )


def _is_over(one: Judged, cautions: Cautions) -> bool:
    return finding_by(one, cautions) > Finding.TASTE
