"""The book: the only door to a household's record."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Unpack, cast

from wellbook.book.changes import (
    ARTICLE,
    EventChanges,
    EventFields,
    ExpenseChanges,
    IntervalFields,
    LabFields,
    PlanFields,
    PointChanges,
    Removable,
    SampleChanges,
    ServiceChanges,
    ServiceFields,
    UnitChanges,
    UnitFields,
    WellChanges,
    WellFields,
    change_inspection,
    remove_parts_of_event,
    set_construction,
    set_prices,
)
from wellbook.book.rows import (
    Document,
    InspectionAnswer,
    NewDocument,
    NewResult,
    NewSample,
    Plan,
    Price,
)
from wellbook.book.samples import (
    Results,
    add_sample,
    attach,
    complete_sample,
    detach,
    lab_number,
    no_longer_awaited,
    result_row,
    sample_row,
)
from wellbook.book.session import OpenBook
from wellbook.book.writer import Row
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.readings import Flag
from wellbook.water.values.triggers import EventKind


def _row(given: Mapping[str, object]) -> Row:
    """The columns for the fields given; yes and no are kept as 1 and 0."""
    plain = {key: int(value) if isinstance(value, bool) else value for key, value in given.items()}
    return cast("Row", plain)


class Book(OpenBook):
    """One household's record, open for reading and, unless `is_readonly`, for writing.

    Reading is inherited from `ReadBook`, opening and undoing from `OpenBook`. Every method here is
    one transaction: it is kept whole, with its entry in the journal, when the call returns, and
    leaves no trace when it raises.
    """

    def add_well(self, name: str, **more: Unpack[WellFields]) -> int:
        """Add a well, with its construction log if known; returns its number."""
        construction = more.pop("construction", {})
        with self._writing() as writer:
            well = writer.insert("well", {"name": name, **_row(more)})
            writer.insert_all(
                "construction",
                [{"well": well, "item": item, "text": text} for item, text in construction.items()],
            )
            writer.note("add a well")
        return well

    def add_point(
        self, well: int, name: str, *, treated: bool = False, place: int = 1, note: str = ""
    ) -> int:
        """Add a sampling point to a well; returns its number."""
        row: Row = {
            "well": well,
            "name": name,
            "treated": int(treated),
            "place": place,
            "note": note,
        }
        return self._add("point", row, "add a point")

    def add_unit(self, well: int, name: str, **more: Unpack[UnitFields]) -> int:
        """Add a treatment unit to a well; returns its number."""
        row: Row = {"well": well, "name": name, "place": 1, **_row(more)}
        return self._add("treatment_unit", row, "add a treatment unit")

    def add_service(self, unit: int, kind: str, day: str, **more: Unpack[ServiceFields]) -> int:
        """Add what was done to a treatment unit, or a bypass of it; returns its number."""
        row: Row = {"unit": unit, "kind": kind, "day": day, **_row(more)}
        return self._add("service", row, "add a service")

    def add_lab(self, name: str, **more: Unpack[LabFields]) -> int:
        """Add a lab, or complete one that is known by name; returns its number."""
        with self._writing() as writer:
            lab = lab_number(writer, name)
            writer.update("lab", lab, _row(more))
            writer.note("add a lab")
        return lab

    def set_prices(self, lab: str, prices: Iterable[Price], *, whole: bool = True) -> None:
        """Keep prices of a lab: as its whole list, or beside its prices of other names."""
        with self._writing() as writer:
            set_prices(writer, lab_number(writer, lab), prices, whole=whole)
            writer.note("keep a price list")

    def add_event(self, well: int, kind: str, day: str, **more: Unpack[EventFields]) -> int:
        """Add an event to a well; returns its number."""
        row: Row = {"well": well, "kind": kind, "day": day, "private": 0, **_row(more)}
        return self._add("event", row, "add an event")

    def add_inspection(
        self,
        well: int,
        day: str,
        answers: Sequence[InspectionAnswer],
        documents: Sequence[NewDocument] = (),
        **more: Unpack[EventFields],
    ) -> int:
        """Add an inspection with what was seen and its photos, whole; returns the event's number.

        Args:
            well: Number of the well.
            day: ISO date, month or year.
            answers: What was seen; their numbers and that of the event are given here.
            documents: Photos.
            more: What may be said of any event.
        """
        with self._writing() as writer:
            kind = str(EventKind.INSPECTION)
            row: Row = {"well": well, "kind": kind, "day": day, "private": 0, **_row(more)}
            event = writer.insert("event", row)
            writer.insert_all(
                "inspection_answer",
                [
                    {
                        "event": event,
                        "item": answer.item,
                        "answer": answer.answer,
                        "text": answer.text,
                        "mended": answer.mended,
                    }
                    for answer in answers
                ],
            )
            for document in documents:
                attach(writer, document, sample=None, well=well, event=event)
            writer.note("add an inspection")
        return event

    def change_inspection(
        self,
        event: int,
        day: str,
        answers: Sequence[InspectionAnswer],
        documents: Sequence[NewDocument] = (),
        text: str = "",
    ) -> None:
        """Make an inspection say just these answers, by their lines; photos are added to it."""
        with self._writing(blind=False) as writer:
            well = change_inspection(writer, event, {"day": day, "text": text}, answers)
            for document in documents:
                attach(writer, document, sample=None, well=well, event=event)
            writer.note("change an inspection")

    def mend(self, answer: int, day: str) -> None:
        """Say when what an inspection found was put right; an empty day takes that back."""
        self._change("inspection_answer", answer, {"mended": day}, "mend what was found")

    def set_interval(
        self,
        well: int,
        task: str,
        months: int,
        *,
        unit: int | None = None,
        **more: Unpack[IntervalFields],
    ) -> None:
        """Keep the household's own interval for a task of upkeep, whole; 0 for never."""
        with self._writing() as writer:
            found = self._connection.execute(
                "SELECT id FROM upkeep_interval WHERE well = ? AND unit IS ? AND task = ?",
                (well, unit, task),
            ).fetchone()
            said: Row = {"months": months, "reason": "", "use": "", "a_day": "", **_row(more)}
            if found:
                writer.update("upkeep_interval", found[0], said)
            else:
                writer.insert("upkeep_interval", {"well": well, "unit": unit, "task": task, **said})
            writer.note("set an interval of upkeep")

    def add_expense(
        self, well: int, kind: str, day: str, *, cost: str, currency: str, text: str = ""
    ) -> int:
        """Add what else was paid for water; returns its number."""
        paid: Row = {"cost": cost, "currency": currency}
        row: Row = {"well": well, "day": day, "kind": kind, "text": text, **paid}
        return self._add("expense", row, "add a cost")

    def set_plan(self, point: int, panel: str, months: int, **more: Unpack[PlanFields]) -> None:
        """Say how often a panel is to be tested at a point."""
        with self._writing() as writer:
            found = self._connection.execute(
                "SELECT id FROM plan WHERE point = ? AND panel = ?", (point, panel)
            ).fetchone()
            if found:
                writer.update("plan", found[0], {"months": months, **_row(more)})
            else:
                writer.insert(
                    "plan", {"point": point, "panel": panel, "months": months, **_row(more)}
                )
            writer.note("plan a panel")

    def set_setting(self, key: str, value: str) -> None:
        """Keep a choice of the household."""
        with self._writing() as writer:
            found = self._connection.execute(
                "SELECT id FROM setting WHERE key = ?", (key,)
            ).fetchone()
            if found:
                writer.update("setting", found[0], {"value": value})
            else:
                writer.insert("setting", {"key": key, "value": value})
            writer.note("change a setting")

    def set_plans(self, plans: Iterable[Plan]) -> None:
        """Write down several plans, each in place of what its point had for its panel."""
        with self.together():
            for plan in plans:
                self.set_plan(
                    plan.point,
                    plan.panel,
                    plan.months,
                    reason=plan.reason,
                    postponed=plan.postponed,
                    postponed_why=plan.postponed_why,
                )

    def set_settings(self, settings: Mapping[str, str]) -> None:
        """Keep several choices of the household, all of them or none."""
        with self.together():
            for key, value in settings.items():
                self.set_setting(key, value)

    def add_sample(self, sample: NewSample) -> int:
        """Keep a sample with all its results and documents; returns its number."""
        return self.add_samples([sample])[0]

    def add_samples(
        self, samples: Iterable[NewSample], places: Iterable[Sequence[str]] | None = None
    ) -> list[int]:
        """Keep several samples, all of them or none; returns their numbers in order.

        Args:
            samples: The samples.
            places: For each of them, where each of its results stands in its report, if the
                results don't tell that themselves.
        """
        with self._writing() as writer:
            results = Results(writer)
            if places is None:
                return [add_sample(writer, sample, results) for sample in samples]
            pairs = zip(samples, places, strict=True)
            return [add_sample(writer, sample, results, at) for sample, at in pairs]

    def complete_sample(self, number: int, new: NewSample, *, withdrawn: bool = False) -> None:
        """Add what the lab's report says to a sample that was awaited; nothing is doubled.

        A finding that the lab told before takes the report's words where the report bears it out.
        Where it contradicts it both stand, and the finding counts unless it was `withdrawn`.
        """
        with self._writing(blind=False) as writer:
            complete_sample(writer, number, new, withdrawn=withdrawn)
            writer.note("complete a sample")

    def add_document(
        self, document: NewDocument, *, sample: int = 0, well: int = 0, event: int = 0
    ) -> int:
        """Keep a document beside a sample, a well or its event; the same content is kept once."""
        with self._writing() as writer:
            number = attach(
                writer, document, sample=sample or None, well=well or None, event=event or None
            )
            writer.note("add a document")
        return number

    def remove_document(self, document: Document) -> None:
        """Take a document away from its sample or well; its bytes stay, for `undo`."""
        with self._writing(blind=False) as writer:
            detach(writer, document)
            writer.note("remove a document")

    def strike_sample(self, number: int, reason: str) -> None:
        """Mark a sample as not to be counted; it stays in the book with the reason."""
        if not reason.strip():
            raise Fault(_("A test is struck out with a reason: say why it is not to be counted."))
        with self._writing(blind=False) as writer:
            writer.update("sample", number, {"struck": reason.strip()})
            writer.note("strike out a sample", reason.strip())

    def restore_sample(self, number: int, reason: str = "") -> None:
        """Count a struck sample again."""
        with self._writing(blind=False) as writer:
            writer.update("sample", number, {"struck": ""})
            writer.note("count a sample again", reason)

    def correct_result(self, number: int, new: NewResult, reason: str) -> None:
        """Correct what was entered for a result; the first entry stays in the journal."""
        if not reason.strip():
            raise Fault(_("A correction is made with a reason: say what was wrong."))
        with self._writing(blind=False) as writer:
            row = result_row(writer, new)
            writer.update("result", number, row)
            writer.note("correct a result", reason.strip())

    def add_result(self, sample: int, new: NewResult, reason: str) -> int:
        """Add a reading that was not entered with its sample; returns its number."""
        if not reason.strip():
            raise Fault(_("A correction is made with a reason: say what was wrong."))
        with self._writing(blind=False) as writer:
            number = writer.insert("result", {"sample": sample, **result_row(writer, new)})
            if Flag.PRELIMINARY not in new.reading.flags:
                no_longer_awaited(writer, sample, [new.parameter])
            writer.note("correct a sample", reason.strip())
        return number

    def change_well(self, number: int, **new: Unpack[WellChanges]) -> None:
        """Change what is said of a well; items of its log that are empty are taken out."""
        construction = new.pop("construction", None)
        with self._writing(blind=False) as writer:
            writer.update("well", number, _row(new))
            if construction is not None:
                set_construction(writer, number, construction)
            writer.note("change a well")

    def change_point(self, number: int, **new: Unpack[PointChanges]) -> None:
        """Change what is said of a sampling point."""
        self._change("point", number, _row(new), "change a point")

    def change_unit(self, number: int, **new: Unpack[UnitChanges]) -> None:
        """Change what is said of a treatment unit, e.g. that it was removed."""
        self._change("treatment_unit", number, _row(new), "change a treatment unit")

    def change_event(self, number: int, **new: Unpack[EventChanges]) -> None:
        """Change what is said of an event."""
        self._change("event", number, _row(new), "change an event")

    def change_service(self, number: int, **new: Unpack[ServiceChanges]) -> None:
        """Change what is said of a service."""
        self._change("service", number, _row(new), "change a service")

    def change_expense(self, number: int, **new: Unpack[ExpenseChanges]) -> None:
        """Change what is said of another cost."""
        self._change("expense", number, _row(new), "change a cost")

    def remove(self, table: Removable, number: int) -> None:
        """Take out an event, a service, a plan and so on; the journal keeps what it said."""
        with self._writing(blind=False) as writer:
            if table == "event":
                remove_parts_of_event(writer, number)
            writer.remove(table, number)
            writer.note(f"remove {ARTICLE[table]}")

    def correct_sample(self, number: int, reason: str, **new: Unpack[SampleChanges]) -> None:
        """Correct what was entered for a sample; the first entry stays in the journal."""
        if not reason.strip():
            raise Fault(_("A correction is made with a reason: say what was wrong."))
        with self._writing(blind=False) as writer:
            writer.update("sample", number, sample_row(writer, new))
            writer.note("correct a sample", reason.strip())

    def _add(self, table: str, row: Row, action: str) -> int:
        with self._writing() as writer:
            number = writer.insert(table, row)
            writer.note(action)
        return number

    def _change(self, table: str, number: int, row: Row, action: str) -> None:
        with self._writing(blind=False) as writer:
            writer.update(table, number, row)
            writer.note(action)
