"""Verdicts of a result that is alone in its sample."""

from wellbook.water.point_record import PointRecord
from wellbook.water.verdicts import assess


def then_and_now(result, catalogue, sets, today):
    (assessed,) = assess((result,), PointRecord.of((result,)), catalogue, sets, today)
    return assessed.then, assessed.now
