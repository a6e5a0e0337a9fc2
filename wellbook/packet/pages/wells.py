"""The well as it was built, its treatment units, what happened to it, and the labs."""

from reportlab.platypus import Spacer

from wellbook.book.rows import Event, Lab, TreatmentUnit, covers
from wellbook.packet.context import Desk, Story, text
from wellbook.packet.gather import SampleFacts, WellFacts
from wellbook.pdf import style
from wellbook.pdf.grid import Column, grid, pairs
from wellbook.support.translation import count, mark, say
from wellbook.wording import paper, vocabulary

_EVENTS = (
    Column(mark("When"), 105),
    Column(mark("What"), 95),
    Column(mark("In the household’s words"), 300),
)
_UNITS = (
    Column(mark("Unit"), 110),
    Column(mark("Kind"), 100),
    Column(mark("In use"), 120),
    Column(mark("Meant to remove"), 90),
    Column(mark("Note"), 90),
)
_SERVICES = (
    Column(mark("Service or bypass"), 105),
    Column(mark("Unit"), 110),
    Column(mark("What was done"), 95),
    Column(mark("In the household’s words"), 190),
)
_LABS = (
    Column(mark("No."), 20),
    Column(mark("Lab"), 120),
    Column(mark("Accreditation as entered"), 116),
    Column(mark("Valid"), 104),
    Column(mark("Tests"), 34, right=True),
    Column(mark("On the sampling days"), 116),
)


def wells(desk: Desk) -> Story:
    """Construction, treatment and events of each well."""
    story: Story = [desk.heading(say("The well, its treatment and its events"), "well")]
    for facts in desk.history.wells:
        story += _well(desk, facts)
    return story if desk.history.wells else [*story, text(say("No well was entered."))]


def _well(desk: Desk, facts: WellFacts) -> Story:
    well = facts.well
    replaced = {one.well.id: one.well.name for one in desk.history.wells}.get(
        well.replaces or 0, ""
    )
    rows = [
        (say("Address"), well.address),
        (say("Coordinates"), well.coordinates),
        (say("Replaces"), replaced),
        *((_begun(vocabulary.log_item(item)), said) for item, said in well.construction.items()),
        (say("Note"), well.note),
    ]
    kept = [row for row in rows if row[1]]
    built = (
        [pairs(kept, desk.width)]
        if kept
        else [text(say("Nothing was entered about how the well was built: ask for its log."))]
    )
    return [
        desk.second(
            say("{well}: construction, as written", well=well.name), f"construction-{well.id}"
        ),
        *built,
        desk.second(
            say("{well}: treatment units in the order of flow", well=well.name), f"units-{well.id}"
        ),
        *_units(desk, facts.units),
        *_services(desk, facts),
        desk.second(say("{well}: events", well=well.name), f"events-{well.id}"),
        *_events(desk, facts),
    ]


def _begun(word: str) -> str:
    return word[:1].upper() + word[1:]


def _units(desk: Desk, units: tuple[TreatmentUnit, ...]) -> Story:
    if not units:
        return [text(say("None entered."))]
    known = desk.history.catalogue.parameters
    rows = [
        [
            unit.name,
            vocabulary.treatment(unit.kind),
            paper.open_span(unit.installed, unit.removed) or say("not known"),
            ", ".join(known[key].name if key in known else key for key in unit.target.split()),
            unit.note,
        ]
        for unit in units
    ]
    return [grid(_UNITS, rows, desk.width)]


def _services(desk: Desk, facts: WellFacts) -> Story:
    names = {unit.id: unit.name for unit in facts.units}
    rows = [
        [
            paper.span(one.day, one.until),
            names[one.unit],
            vocabulary.service(one.kind),
            one.text,
        ]
        for one in sorted(facts.services, key=lambda one: (one.day, one.id))
    ]
    if not rows:
        return []
    return [Spacer(1, 8), grid(_SERVICES, rows, desk.width)]


def _events(desk: Desk, facts: WellFacts) -> Story:
    rows = [[_when(event), vocabulary.event(event.kind), event.text] for event in facts.events]
    story: Story = [grid(_EVENTS, rows, desk.width)] if rows else [text(say("None entered."))]
    if facts.private_events:
        story.append(text(say("Events marked private are not shown."), style.SMALL))
    return story


def _when(event: Event) -> str:
    return paper.span(event.day, event.until)


def labs(desk: Desk) -> Story:
    """The labs with their accreditation, as far as it was entered, on each sampling day."""
    story: Story = [desk.heading(say("Labs"), "labs")]
    rows = [
        [str(number), *_lab(lab, desk.history.tests)]
        for number, lab in enumerate(desk.history.labs, start=1)
    ]
    if not rows:
        return [*story, text(say("No lab was entered."))]
    return [
        *story,
        text(
            say(
                "A lab is accredited for fields of testing, not as a whole. What stands here is "
                "what was entered; the accrediting body can confirm it for each method."
            )
        ),
        grid(_LABS, rows, desk.width),
    ]


def _lab(lab: Lab, tests: tuple[SampleFacts, ...]) -> list[str]:
    own = [
        test
        for test in tests
        if lab.name == test.sample.lab or any(one.result.lab == lab.name for one in test.results)
    ]
    valid = paper.open_span(lab.valid_from, lab.valid_to)
    name = f"{lab.name}\n{lab.note}" if lab.note else lab.name
    accreditation = lab.accreditation or say("not entered")
    return [name, accreditation, valid, str(len(own)), _covered(lab, own)]


def _covered(lab: Lab, own: list[SampleFacts]) -> str:
    if not own:
        return ""
    if not lab.accreditation or not (lab.valid_from or lab.valid_to):
        return say("not known")
    outside = [test.number for test in own if not covers(lab, test.sample.collected.day)]
    if not outside:
        return say("valid for every test")
    return count(
        "not shown to be valid for test {numbers}",
        "not shown to be valid for tests {numbers}",
        len(outside),
        numbers=", ".join(map(str, outside)),
    )
