"""Where the tests of the book come from, and what nobody can see from here."""

from collections.abc import Iterable, Sequence

from wellbook.packet.context import PacketContext, Story, text, texts
from wellbook.packet.gather import History
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.sharing.sources import LeftBehind, MissingOriginal, Source
from wellbook.support.translation import N_, _, ngettext, pgettext
from wellbook.wording import paper, vocabulary

_NEVER_ENTERED = N_("Tests that were never entered can’t be seen from here.")
_MISSING = (
    Column(N_("Original"), 150),
    Column(N_("Belongs to"), 100),
    Column(N_("SHA-256"), 262),
)


def first_words(history: History) -> str:
    """What page 1 says of packets that the book came from and that were not whole."""
    # Without their codes: the only code on page 1 is that of the file itself.
    return " ".join(_said(history, one, _packet_of(one)) for one in history.sources if one.left_out)


def whole_words(history: History) -> str:
    """How whole the record is, as far as anybody can tell who holds the book."""
    if history.sources:
        return _("all that is in the book, part of it taken over from other packets")
    return _("every test in the book that counts. Tests that were never entered can’t be seen")


def origins(context: PacketContext) -> Story:
    """Each packet that tests came from: its day, its code, what it left out."""
    history = context.history
    story: Story = [context.heading(_("Where the tests come from"), "origins")]
    if not history.sources:
        own = _("Every test in this packet was entered in the book that it was made from.")
        return [*story, text(f"{own} {_(_NEVER_ENTERED)}")]
    for one in history.sources:
        story.append(text(f"{_came(history, one)} {_compared(one)}"))
    story += texts([_rest(history), _(_NEVER_ENTERED)])
    missing = _missing(history)
    if missing:
        story.append(
            text(
                _(
                    "These originals did not travel along with it. Ask for them where the tests "
                    "come from; the fingerprint shows whether a file is the same."
                )
            )
        )
        story.append(grid(_MISSING, [_row(history, one) for one in missing], context.width))
    return story


def _packet_of(one: Source) -> str:
    day = paper.loose_day(one.day) if one.day else _("an unknown day")
    return _("a packet of {day}").format(day=day)


def _came(history: History, one: Source) -> str:
    """`Tests 1 to 16 came from a packet of 28 Nov 2026 (check code …) that itself left out …`."""
    which = _("{packet} (check code {code})").format(packet=_packet_of(one), code=one.code)
    return _said(history, one, which)


def _said(history: History, one: Source, which: str) -> str:
    tests = _tests(history, one.samples)
    if one.through:
        said = _("Before that, {tests} came from {which}, as that packet tells").format(
            tests=_lowered(tests), which=which
        )
    else:
        said = _("{tests} came from {which}").format(tests=tests, which=which)
    if one.left_out is None:
        return _("{said}, which left out nothing of the book that it was made from.").format(
            said=said
        )
    return _("{said}, which itself left out {what}.").format(
        said=said, what=_left_out(one.left_out)
    )


def _lowered(tests: str) -> str:
    return tests[:1].lower() + tests[1:]


def _left_out(left: LeftBehind) -> str:
    said = [
        _("{n:,} of {tests}").format(n=left.tests, tests=_count_tests(left.of_tests)),
        _("{n:,} of {readings}").format(n=left.readings, readings=_readings(left.of_readings)),
    ]
    if left.struck:
        said.append(
            ngettext("{n:,} struck test", "{n:,} struck tests", left.struck).format(n=left.struck)
        )
    whole = _("{some} and {last}").format(some=", ".join(said[:-1]), last=said[-1])
    if not left.chosen:
        return whole
    return _("{whole} ({chosen})").format(whole=whole, chosen="; ".join(left.chosen))


def _count_tests(n: int) -> str:
    return ngettext("{n:,} test", "{n:,} tests", n).format(n=n)


def _readings(n: int) -> str:
    return ngettext("{n:,} reading", "{n:,} readings", n).format(n=n)


def _compared(one: Source) -> str:
    if one.is_compared:
        return _("Its code was compared with the one that the household told.")
    return _("Nobody compared its code with the one that the household told.")


def _numbers(history: History) -> dict[int, int]:
    return {test.sample.id: test.number for test in (*history.tests, *history.struck)}


def _tests(history: History, samples: Iterable[int]) -> str:
    """`Tests 1 to 16`, by their numbers in this packet."""
    known = _numbers(history)
    numbers = sorted(known[one] for one in samples if one in known)
    if not numbers:
        return _("Tests that are not shown here, or facts of the well,")
    spans = _spans(numbers)
    if len(numbers) == 1:
        return _("Test {number}").format(number=numbers[0])
    return _("Tests {numbers}").format(numbers=", ".join(spans))


def _spans(numbers: Sequence[int]) -> list[str]:
    """Numbers in order, those that follow one another as `first to last`."""
    spans: list[list[int]] = []
    for number in numbers:
        if spans and number == spans[-1][-1] + 1:
            spans[-1].append(number)
        else:
            spans.append([number])
    return [
        str(span[0])
        if len(span) == 1
        else _("{first} to {last}").format(first=span[0], last=span[-1])
        for span in spans
    ]


def _rest(history: History) -> str:
    """What was entered here after all."""
    came = {number for one in history.sources for number in one.samples}
    own = [number for number in _numbers(history) if number not in came]
    if not own:
        return ""
    return _("{tests} in this packet: entered in the book that it was made from.").format(
        tests=_tests(history, own)
    )


def _missing(history: History) -> list[MissingOriginal]:
    held = {one.sha256 for one in history.documents}
    found = dict.fromkeys(one for source in history.sources for one in source.missing)
    return [one for one in found if one.sha256 not in held]


def _row(history: History, one: MissingOriginal) -> list[Cell]:
    number = _numbers(history).get(one.sample)
    belongs = (
        _("test {number}").format(number=number)
        if number
        else pgettext("what a document belongs to", "well")
    )
    return [vocabulary.document(one.kind), belongs, one.sha256]
