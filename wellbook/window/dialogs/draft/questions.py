"""What is odd about a test that is about to be kept, in sentences."""

from wellbook.book.rows import NewSample
from wellbook.water.values.findings import Severity
from wellbook.water.values.results import Result
from wellbook.window.common.household import Household
from wellbook.wording import findings


def results_of(sample: NewSample) -> tuple[Result, ...]:
    """The results of a sample as the record would hand them out, numbered from 1."""
    return tuple(
        Result(
            id=number,
            sample=0,
            parameter=new.parameter,
            name=new.name,
            reading=new.reading,
            collected=sample.collected,
            point=sample.point,
            method=new.method,
            reporting_limit=new.reporting_limit,
            detection_limit=new.detection_limit,
            qualifier=new.qualifier,
            lab=new.lab or sample.lab,
            analysed=new.analysed,
            draw=new.draw or sample.draw,
        )
        for number, new in enumerate(sample.results, 1)
    )


def questions(sample: NewSample, household: Household) -> tuple[str, ...]:
    """What should be looked at before this sample is kept."""
    from wellbook.water.plausibility.checks import check

    history = household.book.results(point=sample.point)
    found = check(
        results_of(sample),
        household.catalogue,
        history,
        today=household.today,
        received=sample.received,
    )
    return tuple(findings.said(oddity) for oddity in found if oddity.severity is Severity.ASK)
