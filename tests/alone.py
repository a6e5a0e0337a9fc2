"""Verdicts of a result that is alone in its sample."""

from wellbook.water.verdicts.judge import assess
from wellbook.water.verdicts.point_record import PointRecord


def then_and_now(result, catalogue, sets, today):
    (assessed,) = assess((result,), PointRecord.of((result,)), catalogue, sets, today)
    return assessed.then, assessed.now
