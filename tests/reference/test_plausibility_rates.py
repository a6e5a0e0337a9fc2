"""How often real reports are asked about, and how often a planted slip is.

U.S. Geological Survey, Choptank River, 1964 to 2020: a stream, whose figures swing more than those
of a well, so a well's reports are asked about less often.
"""

from dataclasses import replace
from decimal import Decimal

import pytest
from choptank_samples import results_of, rows_by_sample

from wellbook.support import paths
from wellbook.water.plausibility.checks import check
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
REMEMBERED = 1500  # results before, which is some years


@pytest.fixture(scope="module")
def samples():
    """Every sample with the results that came before it."""
    past, samples = [], []
    for number, ((day, _), rows) in enumerate(rows_by_sample().items(), 1):
        results = [replace(one, sample=number) for one in results_of(day, rows)]
        if results:
            samples.append((results, past[-REMEMBERED:]))
            past += results
    return samples


def asked(results, history):
    return {f.key for f in check(results, CATALOGUE, history) if f.severity == "ask"}


def test_few_real_samples_are_asked_about(samples):
    asked_about = [asked(*one) for one in samples]
    share = sum(map(bool, asked_about)) / len(samples)
    balance = sum("charge_balance" in keys for keys in asked_about)
    assert len(samples) > 1200
    assert share < 0.06  # measured: 62 of 1245 samples, 5.0 %
    assert balance <= 5  # measured: 5 of 256 samples with all main ions, 2.0 %


@pytest.mark.parametrize(
    ("key", "factor", "least"),
    [
        ("nitrate", "4.4268", 0.85),
        ("nitrate", "10", 0.95),
        ("chloride", "10", 0.95),
        ("silica", "0.1", 0.85),
        ("iron", "1000", 0.95),
        ("calcium", "10", 0.95),
        ("calcium", "2.497", 0.4),
    ],
)
def test_a_planted_slip_is_found_as_often_as_that(samples, key, factor, least):
    tried = found = 0
    for results, history in samples[200::6]:
        sound = asked(results, history)
        slipped = [
            replace(one, reading=replace(one.reading, number=one.reading.number * Decimal(factor)))
            if one.parameter == key
            else one
            for one in results
        ]
        if slipped != results:
            tried += 1
            found += bool(asked(slipped, history) - sound)
    assert tried > 15
    assert found / tried >= least, f"{found} of {tried}"
