"""Readings with all their judgements, as people would have them from a lab."""

from dataclasses import replace
from datetime import date

from wellbook.support.paths import resources
from wellbook.water.cautions.cautions import read_cautions
from wellbook.water.cautions.findings import Judged
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import assess
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.sum_status import stand_sums

CATALOGUE = read_catalogue(resources())
CAUTIONS = read_cautions(resources() / "cautions.toml")
TODAY = date(2026, 11, 25)
USUAL = tuple(key for key, one in CATALOGUE.sets.items() if one.default)


def result(parameter, text, unit="", basis="", *, draw="", number=1, day=TODAY, flags=frozenset()):
    known = CATALOGUE.parameters[parameter]
    is_presence = known.scale == "presence"
    reading = read_reading(
        text, unit=unit or ("per 100 mL" if is_presence else known.unit), basis=basis
    )
    reading = replace(reading, flags=reading.flags | flags)
    return Result(number, 1, parameter, known.name, reading, LocalTime(day), 1, draw=draw)


def judged(*results, sets=USUAL, today=TODAY):
    """All readings and sums of one sample."""
    record = PointRecord.of(results)
    readings = [
        Judged(CATALOGUE.parameters[one.result.parameter], one.result.reading,
               one.all_now or (one.now,), one.result.collected.day)
        for one in assess(results, record, CATALOGUE, sets, today)
    ]  # fmt: skip
    sums = [
        Judged(one.parameter, None, one.all_now or (one.now,), one.day)
        for one in stand_sums(record, CATALOGUE, sets, today)
    ]
    return readings + sums
