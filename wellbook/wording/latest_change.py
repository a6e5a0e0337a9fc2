"""What changed since the test before, in one short paragraph."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from wellbook.support.translation import _, ngettext
from wellbook.water.values.figures import plain
from wellbook.water.verdicts.latest_change import Crossed, LatestChange, Step
from wellbook.wording import facts, units

_MOST = 4  # parameters told without being asked for
_MOST_NAMES = 6  # parameters named in one line


def paragraph(found: LatestChange, between: Sequence[str] = ()) -> str:
    """The change with its size, what else differs, and what happened between the two tests.

    Args:
        found: The change.
        between: Events and services of that time, in words.
    """
    if found.before is None:
        return _("This is the first test of it.")
    said = [_step(found), _crossed(found.crossed), *_circumstances(found)]
    if between:
        said.append(_("Between the two: {events}.").format(events="; ".join(between)))
    return " ".join(filter(None, said))


def latest_test(changes: Iterable[LatestChange | None]) -> str:
    """What is new in the latest test of a point, a line a parameter; empty if nothing is.

    That nothing is new is not said: it would sound like an all-clear.
    """
    return "\n".join(sentence for _key, sentence in latest_lines(changes))


def latest_lines(changes: Iterable[LatestChange | None]) -> tuple[tuple[str, str], ...]:
    """What `latest_test` says, line by line, each with the key of its parameter or none."""
    known = [one for one in changes if one is not None]
    day = max((one.day for one in known), default=None)
    latest = [one for one in known if one.day == day and one.before is not None]
    told = [one for one in latest if one.is_notable]
    lines = [*_notable(told, latest), *_circumstances_of(latest, told)]
    if not lines or day is None:
        return ()
    head = _("New in the latest test, {day}").format(day=facts.day(day))
    return (("", head), *lines)


def _notable(
    told: Sequence[LatestChange], latest: Sequence[LatestChange]
) -> Iterator[tuple[str, str]]:
    """What a person should hear of: what crossed a limit first, then what was never found before.

    The lab is not named again and again where all were tested by another one.
    """
    shared = _is_shared([one.lab for one in latest])
    ranked = sorted(told, key=lambda one: (one.crossed is Crossed.NO, one.step is not Step.NEW))
    for one in ranked[:_MOST]:
        sentence = paragraph(replace(one, lab=None) if shared else one)
        line = _("{parameter}: {sentence}").format(parameter=one.parameter.name, sentence=sentence)
        yield one.parameter.key, line
    if len(told) > _MOST:
        more = len(told) - _MOST
        yield (
            "",
            ngettext("and {n} more parameter", "and {n} more parameters", more).format(n=more),
        )


def _circumstances_of(
    latest: Sequence[LatestChange], told: Sequence[LatestChange]
) -> Iterator[tuple[str, str]]:
    """How the test itself was another one; of what is told already only the lab they share."""
    others = [one for one in latest if one not in told]
    if _is_shared([one.lab for one in latest]) and latest[0].lab:
        yield "", _another_lab(latest[0].lab)
    else:
        by_lab: dict[tuple[str, str], list[LatestChange]] = {}
        for one in others:
            if one.lab:
                by_lab.setdefault(one.lab, []).append(one)
        for lab, ones in by_lab.items():
            yield (
                "",
                _("{parameters}: {sentence}").format(
                    parameters=_names(ones), sentence=_another_lab(lab)
                ),
            )
    methods = [one for one in others if one.method]
    if methods:
        yield "", _("Another method: {parameters}.").format(parameters=_names(methods))
    limits = [one for one in others if one.reporting_limit]
    if limits:
        yield "", _("Another reporting limit: {parameters}.").format(parameters=_names(limits))


def _is_shared(labs: Sequence[tuple[str, str] | None]) -> bool:
    return len(set(labs)) == 1 and labs[0] is not None


def _names(changes: Sequence[LatestChange]) -> str:
    """Names of parameters, not too many."""
    names = ", ".join(one.parameter.name for one in changes[:_MOST_NAMES])
    more = len(changes) - _MOST_NAMES
    if more <= 0:
        return names
    return ngettext("{names} and {n} more", "{names} and {n} more", more).format(
        names=names, n=more
    )


def _step(found: LatestChange) -> str:
    day = facts.day(found.before) if found.before else ""
    if found.step in {Step.UP, Step.DOWN} and found.size is not None:
        return _sized(found, day)
    return {
        Step.FIRST: "",
        Step.UP: _("Higher than on {day}; off scale, so by how much can’t be told."),
        Step.DOWN: _("Lower than on {day}; off scale, so by how much can’t be told."),
        Step.SAME: _("The same as on {day}."),
        Step.NEW: _("Found for the first time; not detected on {day} and before."),
        Step.DETECTED: _("Found again; not detected on {day}."),
        Step.GONE: _("No longer found; it was found on {day}."),
        Step.NOT_DETECTED: _("Not detected, as on {day}."),
        Step.OPEN: _("Only bounds are known, so whether it changed since {day} can’t be told."),
    }[found.step].format(day=day)


def _sized(found: LatestChange, day: str) -> str:
    told = {"size": plain(found.size or 0), "unit": units.said(found.unit), "day": day}
    said = (
        _("Up by {size} {unit} since {day}")
        if found.step is Step.UP
        else _("Down by {size} {unit} since {day}")
    ).format(**told)
    return _("{change}, {measure}.").format(change=said, measure=_measure(found))


def _measure(found: LatestChange) -> str:
    """The size beside this point's own steps and what the lab prints."""
    if found.rounding:
        return _("no more than the last printed digit")
    if found.usual is None:
        return _("too few earlier tests to say whether that is much")
    usual = {"usual": plain(found.usual), "n": found.steps}
    if found.unusual:
        return ngettext(
            "more than usual: the middle step is {usual} ({n} step)",
            "more than usual: the middle of {n} earlier steps is {usual}",
            found.steps,
        ).format(**usual)
    return ngettext(
        "within the usual: the middle step is {usual} ({n} step)",
        "within the usual: the middle of {n} earlier steps is {usual}",
        found.steps,
    ).format(**usual)


def _crossed(crossed: Crossed) -> str:
    return {
        Crossed.NO: "",
        Crossed.FIRST_OVER: _("Outside a limit for the first time."),
        Crossed.OVER_AGAIN: _("Outside a limit again."),
        Crossed.FIRST_UNDER: _(
            "No longer outside a limit, for the first time; one test is no proof."
        ),
        Crossed.UNDER_AGAIN: _("No longer outside a limit; one test is no proof."),
    }[crossed]


def _another_lab(lab: tuple[str, str]) -> str:
    return _("Another lab: {now}, before {before}.").format(before=lab[0], now=lab[1])


def _circumstances(found: LatestChange) -> list[str]:
    said = []
    if found.lab:
        said.append(_another_lab(found.lab))
    if found.method:
        said.append(
            _("Another method: {now}, before {before}.").format(
                before=found.method[0], now=found.method[1]
            )
        )
    if found.reporting_limit:
        said.append(
            _("Another reporting limit: {now}, before {before}.").format(
                before=found.reporting_limit[0], now=found.reporting_limit[1]
            )
        )
    if found.limit:
        said.append(
            _("The limit moved from {before} to {now}.").format(
                before=facts.bound(found.limit[0]), now=facts.bound(found.limit[1])
            )
        )
    return said
