"""What is due in words: what a test is called, why it is asked for, when a case closes."""

from dataclasses import replace
from datetime import date

from wellbook.support.message import Message
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.sampling import cases, exceedances
from wellbook.water.sampling.due import Because, ClosingRule, Occasion, PanelDue
from wellbook.water.sampling.exceedances import LONG_MONTHS, LONG_RUN, Exceedance
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.seasons import Season
from wellbook.wording import dates

_SHARE = 100  # per cent
_RULES = {
    ClosingRule.BACTERIA: N_(
        "It closes when, after the last finding and the last disinfection, two samples at least a "
        "day apart found nothing, another one a month or more later found nothing, and one after "
        "those two was drawn in the wet season; or when four clean samples in a row span two years."
    ),
    ClosingRule.NO_EVIDENCE: N_(
        "A sample that was held too long, overgrown or rejected is no evidence."
    ),
    ClosingRule.NEAR: N_("A figure at {n} % of its limit and more is watched more closely."),
    ClosingRule.TEXT: "{text}",
}
_STEPS = {
    cases.Step.CONFIRM: N_("second sample"),
    cases.Step.MEND: N_("mend the cause, then test"),
    cases.Step.RETEST: N_("test after mending"),
    cases.Step.WATCH: N_("test after one to three months"),
    cases.Step.WET: N_("test in the wet season"),
    exceedances.Step.CONFIRM: N_("confirm it"),
    exceedances.Step.PARTNER: N_("the flushed sample beside the first draw"),
    exceedances.Step.WATCH: N_("watch it"),
    exceedances.Step.PROVE: N_("prove the treatment"),
    exceedances.Step.CLEAR: N_("show that it lasts"),
}
_OCCASIONS = {
    Occasion.BACTERIA: N_("Bacteria found on {day}: {next_step}"),
    Occasion.BACTERIA_RAW: N_("Bacteria found behind treatment on {day}: raw water too"),
    Occasion.NO_EVIDENCE: N_("Bacteria: a new sample for that of {day}"),
    Occasion.OVER: N_("{names} over a limit on {day}: {next_step}"),
    Occasion.OUTSIDE: N_("{names} outside its limits on {day}: {next_step}"),
    Occasion.NEAR: N_("{names} near its limit"),
}
_REASONS = {
    Because.NEVER_TESTED: N_("Nothing of this was ever tested here."),
    Because.PARTLY_TESTED: N_("Not all of this was ever tested here."),
    Because.TESTED: N_("Last tested on {day}."),
    Because.NO_DAY: N_(
        "No day in this stretch can be shipped: ask the lab which days it takes bacteria."
    ),
    Because.SHIPPED: N_("{weekday}, {day}, can be shipped to arrive at an open lab."),
    Because.DRIVEN: N_("{weekday}, {day}, can be driven to an open lab."),
    Because.THE_SOONER: N_("The sooner the better."),
    Because.FIRST_OF_ALL: N_("{month} is as good a start as any."),
    Because.FIRST_IN_SEASON: N_("{month} would be the first test in {season}."),
    Because.LEADS_ON: N_("{month} leads on to {season}, in which no test was drawn yet."),
    Because.NO_GAP: N_("{month} was tested before, but no untested season is in reach."),
    Because.VAGUE_DAY: N_(
        "Its day is known only as {date}, so a test surely counts from {day} on: write the day "
        "down if it is known."
    ),
    Because.TEXT: "{text}",
    Because.FOUND: N_("{what} found on {day}."),
    Because.FOUND_AGAIN: N_("{what} found on {day} and again on {last}."),
    Because.SECOND_SAMPLE: N_(
        "Draw a second sample with a clean technique. Until the case is closed use other water, "
        "or follow the caution on this finding."
    ),
    Because.MEND: N_(
        "Find the way in and have it mended, then the well disinfected, by a licensed person "
        "where the local code asks for one. Test when a strip shows no chlorine at all."
    ),
    Because.MENDED: N_("Last work on the well: {day}."),
    Because.NOT_MENDED: N_("Last work on the well: not noted."),
    Because.STRIP_FIRST: N_(
        "Test when a strip shows no chlorine at all; two samples at least a day apart have to "
        "find nothing."
    ),
    Because.ONE_CLEAN: N_("The sample of {day} found nothing; a second one has to, too."),
    Because.NO_REPAIR: N_("No repair is noted: look for the way in all the same."),
    Because.TWO_CLEAN: N_(
        "Two samples found nothing since. A third one tells whether it comes back: findings "
        "come and go."
    ),
    Because.WET_SEASON: N_(
        "The samples since found nothing; one from the wet season is still wanted."
    ),
    Because.WELL_OR_HOUSE: N_(
        "A sample from before any treatment tells whether they come from the well or the house."
    ),
    Because.NO_EVIDENCE: N_(
        "The last sample was held too long, overgrown or rejected: it is no evidence that nothing "
        "was there."
    ),
    Because.DO: "{do}",
    Because.CONFIRM: N_("One such sample asks for a second one."),
    Because.FLUSHED_BESIDE: N_(
        "Only a flushed sample beside the first draw tells the house from the well."
    ),
    Because.PROVE: N_(
        "Treatment is in use against it: only tests before and after it show that it still works."
    ),
    Because.PROVE_TANKS: N_(
        "Tanks are in use against it: only tests before, between and after them show that they "
        "still work. What shows between them asks for new media in the first."
    ),
    Because.CLEAR: N_(
        "The last sample was within the limit; the rule on closing asks for more of them."
    ),
    Because.STILL_OVER: N_(
        "The latest test says the same: go on testing while it stands, and settle the cause or a "
        "treatment."
    ),
    Because.NEAR: _RULES[ClosingRule.NEAR],
    Because.SAME_VISIT: N_("It is drawn a little earlier, on one visit with what else is due."),
}


def worded(due: PanelDue) -> PanelDue:
    """What is due with its reasons said, before what was said of it already.

    A panel made for the occasion gets its name, too.
    """
    why = " ".join(filter(None, (*map(reason, due.reasons), due.why)))
    if due.occasion is None or due.rule is None:
        return replace(due, why=why)
    panel = replace(due.panel, name=_called(due.occasion), why=_rule(due.rule))
    return replace(due, why=why, panel=panel)


def reason(because: Message) -> str:
    """One reason why a test is due, and when."""
    facts = dict(because.facts)
    code, n = Because(because.code), facts.get("n")
    if isinstance(n, int) and code not in _REASONS:
        return _filled(_counted(code, n), facts)
    return _filled(_(_REASONS[code]), facts)


def _counted(code: Because, n: int) -> str:
    """The sentence of a reason that counts something."""
    if code is Because.OVERDUE:
        return ngettext(
            "Last tested on {day}, {n} day overdue.", "Last tested on {day}, {n} days overdue.", n
        )
    if code is Because.FAR_FROM_TESTED:
        return ngettext(
            "{month} is {n} month from the nearest month tested before.",
            "{month} is {n} months from the nearest month tested before.",
            n,
        )
    return ngettext(
        "Advised interval: {n} month ({source}).", "Advised interval: {n} months ({source}).", n
    )


def _called(occasion: Message) -> str:
    facts = dict(occasion.facts)
    if occasion.code is Occasion.HAPPENING:
        told = facts["unit"] or _happened(str(facts["day"]))
        return f"{facts['test']} ({told})"
    return _filled(_(_OCCASIONS[Occasion(occasion.code)]), facts)


def _rule(rule: Message) -> str:
    facts = dict(rule.facts)
    row = facts.get("row")
    if isinstance(row, Exceedance):
        return closes_when(row)
    return _filled(_(_RULES[ClosingRule(rule.code)]), facts)


def bacteria_rule() -> str:
    """The rule by which a case of bacteria closes."""
    return _(_RULES[ClosingRule.BACTERIA])


def closes_when(row: Exceedance) -> str:
    """The rule by which a case of a figure over a limit closes."""
    drawn = _(" drawn first after six hours without use") if row.draw else ""
    inside = _("below the limit") if row.side == "over" else _("within the limits")
    below = (
        inside
        if row.clean_share == 1
        else _("below {n} % of the limit").format(n=round(row.clean_share * _SHARE))
    )
    many = ngettext(
        "It closes when {n} result{drawn} lies {below}",
        "It closes when {n} results in a row{drawn} lie {below}",
        row.clean_n,
    ).format(n=row.clean_n, drawn=drawn, below=below)
    if row.clean_months:
        many += ngettext(
            ", the last at least {n} month after the first",
            ", the last at least {n} months after the first",
            row.clean_months,
        ).format(n=row.clean_months)
    return many + _("; or when {n} in a row over {months} months lie {below}.").format(
        n=LONG_RUN, months=LONG_MONTHS, below=inside
    )


def _filled(sentence: str, facts: dict[str, object]) -> str:
    """A sentence with its facts in words."""
    said: dict[str, object] = {name: _fact(name, fact) for name, fact in facts.items()}
    day = facts.get("day")
    if isinstance(day, date):
        said["weekday"] = dates.weekday(day)
    return sentence.format(**said)


def _fact(name: str, fact: object) -> object:
    match name, fact:
        case _, date():
            said: object = dates.written(fact)
        case _, Season():
            said = dates.season(fact)
        case "next_step", cases.Step() | exceedances.Step():
            said = _(_STEPS[fact])
        case "what", tuple():
            said = _germs(fact)
        case _, tuple():
            said = ", ".join(fact)
        case "month", int():
            said = dates.month(fact)
        case "do", str():  # a sentence of the reference data
            said = _(fact)
        case "date", str():
            said = _happened(fact)
        case _:
            said = fact
    return said


def _germs(names: tuple[str, ...]) -> str:
    what = ", ".join(names).lower().replace("e. coli", "E. coli")
    return f"{what[:1].upper()}{what[1:]}"


def _happened(text: str) -> str:
    """A day, a month in full or a year, as it is known; anything else as it stands."""
    partial = read_partial_date(text)
    if partial is None or partial.month is None:
        return text
    return dates.long_month(partial.first) if partial.is_vague else dates.written(partial.first)
