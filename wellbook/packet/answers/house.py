"""What is written down of the house that a treatment has to fit."""

from wellbook.packet.gather import WellFacts
from wellbook.planning import flow_test
from wellbook.support.translation import N_, _
from wellbook.wording import vocabulary

_FLOW = N_("Flow, steady and at most")
_HOUSE = (
    (_FLOW, ("yield", "flow")),
    (N_("Pressure, on and off"), ("pressure",)),
    (N_("People and bathrooms"), ("people", "bathroom")),
    (N_("Pipe, size and material"), ("pipe",)),
    (N_("Drain for a backwash"), ("drain",)),
    (N_("Power at the place"), ("power", "outlet")),
)


def unknown() -> str:
    """What stands where nobody wrote anything down."""
    return _("not known")


def house(facts: WellFacts) -> list[tuple[str, str]]:
    """Each thing that a treatment is sized by, and what the log of the well says of it."""
    log = facts.well.construction
    tested = flow_test.latest(facts.events)
    return [
        (
            _(what),
            "; ".join(
                [
                    *([flow_test.told(tested)] if tested and what == _FLOW else []),
                    *(
                        f"{vocabulary.log_item(item)}: {said}"
                        for item, said in log.items()
                        if any(key in item.casefold() for key in keys)
                    ),
                ]
            )
            or unknown(),
        )
        for what, keys in _HOUSE
    ]
