"""Beside a yearly cycle, slopes that are selected lead to the figures of all slopes sorted."""

import random
from math import sin, tau

import pytest

from tests.made_up_histories import days_of, made_up
from wellbook.water.statistics import pair_slopes
from wellbook.water.statistics.season import beside_season as subject
from wellbook.water.statistics.season.guarded_test import guarded_test
from wellbook.water.statistics.season.serial_dependence import variance_factor
from wellbook.water.statistics.season.time_of_year import dot


def history(seed):
    chance = random.Random(seed)
    days = days_of("13 months" if seed % 2 else "12 months, late", 30 + 10 * (seed % 5), chance)
    return made_up(
        days, chance, cycle=seed % 3, rise=seed % 4, correlation=0.3, undetected=0.2 * (seed % 3)
    )


@pytest.mark.parametrize("seed", range(12))
def test_the_outcome_is_that_of_all_slopes(seed, monkeypatch):
    found = history(seed)
    plainly = subject.beside_season(found.spans), guarded_test(found)
    for module in (pair_slopes, subject):
        monkeypatch.setattr(module, "ALL_UP_TO", 20)
    monkeypatch.setattr(pair_slopes, "_A_TEST", 0)
    monkeypatch.setattr(pair_slopes, "_DRAWN", 30)
    assert (subject.beside_season(found.spans), guarded_test(found)) == plainly


@pytest.mark.parametrize("correlation", [0.01, 0.2, 0.5, 0.9])
@pytest.mark.parametrize("n", [5, 60, 900])
def test_what_is_lost_in_rounding_is_not_summed_up(n, correlation):
    weights = [k - (n - 1) / 2 + 3 * sin(tau * k / 12) for k in range(n)]
    shared = 0.0
    for lag in range(1, n):
        shared += correlation**lag * dot(weights[lag:], weights[:-lag])
    whole = dot(weights, weights)
    assert variance_factor(weights, correlation) == max(1.0, 1 + 2 * shared / whole)
