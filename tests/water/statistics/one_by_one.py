"""Pairs of tests compared one by one: quadratic, and plain enough to be right at sight."""

from bisect import bisect_left, bisect_right
from math import inf, isfinite

from wellbook.water.statistics.kaplan_meier import Mass
from wellbook.water.statistics.outcomes import Slope


def score(spans):
    """Pairs that certainly rise with time less pairs that certainly fall."""
    ordered = sorted((span.at, span.low, span.high) for span in spans)
    total = 0
    for i, (at, low, high) in enumerate(ordered):
        for later, b_low, b_high in ordered[i + 1 :]:
            if later > at:
                total += (high <= b_low and low < b_high) - (b_high <= low and b_low < high)
    return total


def bounds(groups):
    """Lower and upper bounds of the slopes of all pairs of different times, each sorted."""
    lows, highs = [], []
    for spans in groups:
        ordered = sorted((span.at, span.low, span.high) for span in spans)
        for i, (at, low, high) in enumerate(ordered):
            for when, b_low, b_high in ordered[i + 1 :]:
                if when > at:
                    lows.append((b_low - high) / (when - at))
                    highs.append((b_high - low) / (when - at))
    return sorted(filter(isfinite, lows)), sorted(filter(isfinite, highs))


def slope(groups, critical, level):
    """Slope and interval, each crossing found by counting at every bound."""
    lows, highs = bounds(groups)
    steps = sorted(lows + highs)

    def before(step):
        return len(lows) - bisect_left(lows, step) - bisect_left(highs, step)

    def after(step):
        return len(lows) - bisect_right(lows, step) - bisect_right(highs, step)

    rising = bisect_left(steps, 0, key=lambda step: -before(step))
    falling = bisect_right(steps, 0, key=lambda step: -after(step))
    found = rising > 0 and falling < len(steps)
    rate = (steps[rising - 1] + steps[falling]) / 2 if found else None
    first = bisect_left(steps, -critical, key=lambda step: -after(step))
    last = bisect_right(steps, critical, key=lambda step: -before(step))
    low = steps[first] if len(lows) > critical else None
    high = steps[last - 1] if len(highs) > critical else None
    return Slope(rate, low, high, level)


def shares(spans):
    """Kaplan-Meier, each figure counted against every span."""
    left, masses = 1.0, []
    for figure in sorted({span.low for span in spans if span.exact}, reverse=True):
        here = sum(span.low == figure for span in spans)
        share = left * here / sum(span.high <= figure for span in spans)
        masses.append(Mass(figure, figure, share))
        left -= share
    if left > 1e-9:
        lowest = masses[-1].low if masses else min((span.high for span in spans), default=inf)
        masses.append(Mass(-inf, lowest, left))
    return tuple(reversed(masses))


def passed_round(places, allowed):
    """Turnbull's shares: `allowed` lists the places of each span, out of so many."""
    shares = [1 / places] * places
    for _ in range(2000):
        after = [0.0] * places
        for ours in allowed:
            total = sum(shares[k] for k in ours)
            for k in ours:
                after[k] += shares[k] / total / len(allowed)
        still = max(abs(a - b) for a, b in zip(shares, after, strict=True)) < 1e-10
        shares = after
        if still:
            break
    return shares
