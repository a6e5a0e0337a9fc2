"""Which methods serve for a raw water and what comes first, in sentences."""

from collections.abc import Iterator, Sequence

from wellbook.support.translation import _, pgettext
from wellbook.water.cautions.treatment_fit import Fit, Need, Option
from wellbook.wording import facts, vocabulary
from wellbook.wording.facts import bounds


def methods(fit: Fit) -> str:
    """Which methods serve, serve in part and fail, and by which standards."""
    row = fit.treatment
    told = []
    if row.works:
        told.append(_("Usually serve: {methods}.").format(methods=_named(row.works)))
    if row.partly:
        told.append(_("In part: {methods}.").format(methods=_named(row.partly)))
    if row.fails:
        told.append(_("Do not serve: {methods}.").format(methods=_named(row.fails)))
    told.append(
        _("Look for a unit certified for it under {standards}.").format(standards=row.standards)
        if row.standards
        else _("No certified claim is in common use for it.")
    )
    return " ".join((*told, _(row.note))).strip()


def firsts(fit: Fit) -> Iterator[str]:
    """For each method what has to come before it, and what nobody knows."""
    for option in fit.options:
        said = [_need(need) for need in option.needs]
        if said:
            yield _("Before {method}: {needs}.").format(
                method=method(option.method), needs="; ".join(said)
            )
        if option.unknown:
            yield _("For {method} find out: {names}.").format(
                method=method(option.method), names=_names(option)
            )


def paragraph(fit: Fit) -> str:
    """All that is said of one group, its parameters first."""
    names = ", ".join(one.name for one in fit.found)
    said = " ".join((methods(fit), *firsts(fit)))
    return _("{parameter}: {sentence}").format(parameter=names, sentence=said)


def caution() -> str:
    """What no table of methods decides."""
    return _(
        "What usually serves, no choice of a unit: a licensed professional sizes it from raw water "
        "that was tested lately, and a test after the unit shows whether it works."
    )


def missing(names: Sequence[str]) -> str:
    """What a unit is sized by and nobody tested."""
    return _("Never tested in the raw water, and asked for to size a unit: {names}.").format(
        names=", ".join(names)
    )


def method(kind: str) -> str:
    """What a method is called."""
    more = {
        "advanced oxidation": pgettext("treatment unit", "advanced oxidation"),
    }
    return more.get(kind) or vocabulary.treatment(kind)


def _named(kinds: Sequence[str]) -> str:
    return ", ".join(map(method, kinds))


def _names(option: Option) -> str:
    return ", ".join(one.name for one in option.unknown)


def _need(need: Need) -> str:
    bound, parameter = need.bound, need.parameter
    is_ph = parameter.key == "ph"
    unit = "" if is_ph else facts.with_unit("", parameter.unit, parameter.basis)
    told = {
        "first": method(bound.first),
        "parameter": parameter.name,
        "found": f"{bounds(need.found)} {unit}".strip(),
        "figure": facts.with_unit(str(bound.figure), "" if is_ph else bound.unit, ""),
    }
    if bound.is_rule_of_thumb:
        # The figure alone has no source: a reader must know it from those that have one.
        said = (
            _("{first} ({parameter} {found}, rule of thumb at most {figure})")
            if bound.side == "over"
            else _("{first} ({parameter} {found}, rule of thumb at least {figure})")
        )
        return said.format(**told)
    if bound.side == "over":
        return _("{first} ({parameter} {found}, at most {figure})").format(**told)
    return _("{first} ({parameter} {found}, at least {figure})").format(**told)


def sources(fit: Fit) -> str:
    """Who says what serves, and who says what has to come before it."""
    needs = (need.bound.source for option in fit.options for need in option.needs)
    return "; ".join(dict.fromkeys(_(source) for source in (fit.treatment.source, *needs)))
