"""What was decided about the files of labs: looked at, and forgotten one by one."""

from wellbook.intake.decisions import Decision, decisions_in, forget
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.widgets.section_view import Section
from wellbook.window.widgets.table_model import Column


def section(household: Household) -> Section:
    """The decisions of the whole book, lab by lab."""
    book = household.book

    def remove(_unused: int, decision: Decision) -> str:
        forget(book, decision)
        said = _("Forgotten: {said}. It is asked again at the lab’s next file.")
        return said.format(said=decision.said)

    return Section(
        _("Files of labs"),
        _(
            "What you decided when lab files were looked over. It is used at the next file of the "
            "same lab, and said there."
        ),
        (
            Column(_("Lab"), lambda row: row.lab or _("no lab named")),
            Column(_("What you said"), lambda row: row.said),
        ),
        lambda _unused: decisions_in(book, household.catalogue),
        lambda row: (row.lab, row.kind, row.key),
        None,
        remove,
        stretch=1,
        take_out=_("Forget it"),
    )
