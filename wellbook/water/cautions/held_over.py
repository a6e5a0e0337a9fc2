"""A finding holds until two samples in a row are below the limit: one is weak evidence."""

from collections.abc import Iterable, Sequence

from wellbook.water.cautions.advice import Advice, CautionText
from wellbook.water.cautions.cautions import Cautions
from wellbook.water.cautions.findings import Finding, Judged, finding_by


def held_over(
    sample: Sequence[Judged], before: Iterable[Judged], cautions: Cautions
) -> tuple[tuple[Judged, ...], tuple[Advice, ...]]:
    """What cautions go by at a point, and the word on what is held over.

    Of several readings of a day the worst counts. One that can't be told lets the worse one before
    it stand, too.

    Args:
        sample: Latest readings and sums, each with all its judgements.
        before: Readings and sums of the sampling day before the latest of each parameter.
        cautions: The reference data.

    Returns:
        The latest readings with those before that still count, and what is said of these.
    """
    latest = {
        one.parameter.key: finding_by(one, cautions) for one in _milder_first(sample, cautions)
    }
    worse = {
        one.parameter.key: one
        for one in _milder_first(before, cautions)
        if finding_by(one, cautions)
        > max(Finding.TASTE, latest.get(one.parameter.key, Finding.OVER))
    }
    held = {key: one for key, one in worse.items() if latest[key] <= Finding.TASTE}
    counted = (*sample, *worse.values())
    if not held:
        return counted, ()
    text, source = cautions.behind["one_clean"]
    names = tuple(one.parameter.name for one in held.values())
    found = [finding_by(one, cautions) for one in held.values()]
    said = CautionText(text, because=names)
    return counted, (Advice(names, (said,), urgent=True, source=source, finding=max(found)),)


def _milder_first(sample: Iterable[Judged], cautions: Cautions) -> list[Judged]:
    return sorted(sample, key=lambda one: finding_by(one, cautions))
