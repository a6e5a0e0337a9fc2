"""The well as it was built, its treatment units, what happened to it, and the labs."""

from reportlab.platypus import Spacer

from wellbook.book.record import covers
from wellbook.book.rows import Event, Lab, Service, TreatmentUnit
from wellbook.packet.context import PacketContext, Story, text
from wellbook.packet.gather import SampleFacts, WellFacts
from wellbook.pdf import style
from wellbook.pdf.grid import Column, grid, pairs
from wellbook.planning import flow_test
from wellbook.planning.upkeep import words
from wellbook.support.translation import N_, _, ngettext
from wellbook.wording import paper, vocabulary

_EVENTS = (
    Column(N_("When"), 105),
    Column(N_("What"), 95),
    Column(N_("In the household’s words"), 300),
)
_UNITS = (
    Column(N_("Unit"), 110),
    Column(N_("Kind"), 100),
    Column(N_("In use"), 120),
    Column(N_("Meant to remove"), 90),
    Column(N_("Note"), 90),
)
_SERVICES = (
    Column(N_("Service or bypass"), 105),
    Column(N_("Unit"), 110),
    Column(N_("What was done"), 95),
    Column(N_("In the household’s words"), 190),
)
_UPKEEP = (
    Column(N_("What"), 110),
    Column(N_("When"), 140),
    Column(N_("What to do"), 170),
    Column(N_("Who"), 80),
)
_SEEN = (
    Column(N_("Inspection"), 90),
    Column(N_("What"), 120),
    Column(N_("Seen"), 60),
    Column(N_("Put right"), 80),
    Column(N_("In the household’s words"), 150),
)
_COSTS = (
    Column(N_("Year"), 70),
    Column(N_("Sum"), 80, right=True),
    Column(N_("Currency"), 60),
    Column(N_("n"), 30, right=True),
    Column(N_("Made of"), 260),
)
_LABS = (
    Column(N_("No."), 20),
    Column(N_("Lab"), 120),
    Column(N_("Accreditation as entered"), 116),
    Column(N_("Valid"), 104),
    Column(N_("Tests"), 34, right=True),
    Column(N_("On the sampling days"), 116),
)


def wells(context: PacketContext) -> Story:
    """Construction, treatment and events of each well."""
    story: Story = [context.heading(_("The well, its treatment and its events"), "well")]
    for facts in context.history.wells:
        story += _well(context, facts)
    return story if context.history.wells else [*story, text(_("No well was entered."))]


def _well(context: PacketContext, facts: WellFacts) -> Story:
    well = facts.well
    replaced = {one.well.id: one.well.name for one in context.history.wells}.get(
        well.replaces or 0, ""
    )
    rows = [
        (_("Address"), well.address),
        (_("Coordinates"), well.coordinates),
        (_("Replaces"), replaced),
        *((_begun(vocabulary.log_item(item)), said) for item, said in well.construction.items()),
        (_("Note"), well.note),
    ]
    kept = [row for row in rows if row[1]]
    built = (
        [pairs(kept, context.width)]
        if kept
        else [text(_("Nothing was entered about how the well was built: ask for its log."))]
    )
    return [
        context.second(
            _("{well}: construction, as written").format(well=well.name), f"construction-{well.id}"
        ),
        *built,
        context.second(
            _("{well}: treatment units in the order of flow").format(well=well.name),
            f"units-{well.id}",
        ),
        *_units(context, facts.units),
        *_services(context, facts),
        context.second(_("{well}: upkeep").format(well=well.name), f"upkeep-{well.id}"),
        *_upkeep(context, facts),
        context.second(_("{well}: events").format(well=well.name), f"events-{well.id}"),
        *_events(context, facts),
        *_inspections(context, facts),
    ]


def _begun(word: str) -> str:
    return word[:1].upper() + word[1:]


def _units(context: PacketContext, units: tuple[TreatmentUnit, ...]) -> Story:
    if not units:
        return [text(_("None entered."))]
    known = context.history.catalogue.parameters
    rows = [
        [
            unit.name,
            vocabulary.treatment(unit.kind),
            paper.open_span(unit.installed, unit.removed) or _("not known"),
            ", ".join(known[key].name if key in known else key for key in unit.target.split()),
            unit.note,
        ]
        for unit in units
    ]
    return [grid(_UNITS, rows, context.width)]


def _services(context: PacketContext, facts: WellFacts) -> Story:
    names = {unit.id: unit.name for unit in facts.units}
    rows = [
        [
            paper.span(one.day, one.until),
            names[one.unit],
            _done(one),
            one.text,
        ]
        for one in sorted(facts.services, key=lambda one: (one.day, one.id))
    ]
    if not rows:
        return []
    return [Spacer(1, 8), grid(_SERVICES, rows, context.width)]


def _done(service: Service) -> str:
    """What was done, and what the meter showed where it was read."""
    said = vocabulary.service(service.kind)
    if not service.meter:
        return said
    return _("{done}; meter: {shown}").format(done=said, shown=service.meter)


def _upkeep(context: PacketContext, facts: WellFacts) -> Story:
    """What is due now, and what comes next; a fault that an inspection found stands first."""
    rows = [
        [words.place(item), words.standing(item, context.history.today), item.what, item.who]
        for item in facts.upkeep
    ]
    if not rows:
        return [text(_("Nothing is asked for."))]
    return [grid(_UPKEEP, rows, context.width)]


def _inspections(context: PacketContext, facts: WellFacts) -> Story:
    days = {event.id: event.day for event in facts.events}
    names = {item.key: item.name for item in context.history.checklist}
    rows = [
        [
            paper.loose_day(days[one.event]),
            names.get(one.item, one.item),
            words.answer(one.answer),
            paper.loose_day(one.mended),
            one.text,
        ]
        for one in sorted(facts.answers, key=lambda one: (days[one.event], one.id))
    ]
    return [Spacer(1, 8), grid(_SEEN, rows, context.width)] if rows else []


def costs(context: PacketContext) -> Story:
    """What water cost, by year; only where personal facts are shown."""
    return [
        context.heading(_("What water cost, by year"), "costs"),
        text(_("As the household entered it, each currency on its own; n is how many figures.")),
        grid(
            _COSTS,
            [
                [words.year(one), f"{one.total:f}", one.currency, str(one.n), words.parts(one)]
                for one in context.history.costs
            ],
            context.width,
        ),
    ]


def _events(context: PacketContext, facts: WellFacts) -> Story:
    rows = [
        [_when(event), vocabulary.event(event.kind), flow_test.words(event)]
        for event in facts.events
    ]
    story: Story = [grid(_EVENTS, rows, context.width)] if rows else [text(_("None entered."))]
    if facts.private_events:
        story.append(text(_("Events marked private are not shown."), style.SMALL))
    return story


def _when(event: Event) -> str:
    return paper.span(event.day, event.until)


def labs(context: PacketContext) -> Story:
    """The labs with their accreditation, as far as it was entered, on each sampling day."""
    story: Story = [context.heading(_("Labs"), "labs")]
    rows = [
        [str(number), *_lab(lab, context.history.tests)]
        for number, lab in enumerate(context.history.labs, start=1)
    ]
    if not rows:
        return [*story, text(_("No lab was entered."))]
    said = _(
        "A lab is accredited for fields of testing, not as a whole. What stands here is "
        "what was entered; the accrediting body can confirm it for each method."
    )
    return [
        *story,
        text(f"{said} {context.labs_here}".strip()),
        grid(_LABS, rows, context.width),
    ]


def _lab(lab: Lab, tests: tuple[SampleFacts, ...]) -> list[str]:
    own = [
        test
        for test in tests
        if lab.name == test.sample.lab or any(one.result.lab == lab.name for one in test.results)
    ]
    valid = paper.open_span(lab.valid_from, lab.valid_to)
    name = f"{lab.name}\n{lab.note}" if lab.note else lab.name
    accreditation = lab.accreditation or _("not entered")
    return [name, accreditation, valid, str(len(own)), _covered(lab, own)]


def _covered(lab: Lab, own: list[SampleFacts]) -> str:
    if not own:
        return ""
    if not lab.accreditation or not (lab.valid_from or lab.valid_to):
        return _("not known")
    outside = [test.number for test in own if not covers(lab, test.sample.collected.day)]
    if not outside:
        return _("valid for every test")
    return ngettext(
        "not shown to be valid for test {numbers}",
        "not shown to be valid for tests {numbers}",
        len(outside),
    ).format(
        n=len(outside),
        numbers=", ".join(map(str, outside)),
    )
