"""Lab files into a book, one after another: each is read, looked over and stored on its own."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypedDict

from wellbook import intake
from wellbook.book import Book
from wellbook.book.rows import NewResult
from wellbook.intake import Order
from wellbook.intake.decisions import as_remembered, read_as_decided
from wellbook.intake.draft import Draft, Stored
from wellbook.intake.fate import complete, met_in
from wellbook.intake.reviewing import verdicts
from wellbook.planning import settings
from wellbook.planning.standings import newest_changes
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.water.values.catalogue import Catalogue
from wellbook.wording import latest_change

_MOST = 2_000  # files of one folder; our own bound


class Chosen(TypedDict):
    """What the options of `add` hold, by their names."""

    well: str
    point: str
    dates: str | None
    password: str
    columns: tuple[str, ...]
    again: bool
    take: bool
    preliminary: str | None
    accept: bool
    as_json: bool


@dataclass(slots=True)
class Added:
    """What became of some files.

    Attributes:
        drafts: Of the files that could be read.
        stored: What was stored, for those that could be.
        failed: Name of each other file, and why it could not be read or stored.
        verdicts: For each draft and each of its samples, how its results stand to today's limits.
        kept_verdicts: The same for those that were stored.
        kept: Results of files of which every sample was stored, by the samples' numbers.
    """

    drafts: list[Draft] = field(default_factory=list)
    stored: list[Stored] = field(default_factory=list)
    failed: list[tuple[str, str]] = field(default_factory=list)
    verdicts: list[list[tuple[str, ...]]] = field(default_factory=list)
    kept_verdicts: list[list[tuple[str, ...]]] = field(default_factory=list)
    kept: dict[int, tuple[NewResult, ...]] = field(default_factory=dict)


def add(book: Book, catalogue: Catalogue, files: Sequence[Path], chosen: Chosen) -> Added:
    """Read some files, and store each that can be if that is wanted.

    Args:
        book: The book, open for writing where `accept` is set.
        catalogue: The reference data.
        files: Files, or folders of them.
        chosen: The options of the command.

    Raises:
        Fault: A single file can't be read or stored.
    """
    names = list(_each(files))
    done = Added()
    measures, today = settings.yardsticks(book.record().settings, catalogue), date.today()
    for path in names:
        try:
            _require_results(path)
            draft = _draft(book, catalogue, path, chosen)
            done.drafts.append(draft)
            done.verdicts.append(verdicts(draft.samples, *measures, today))
            if chosen["accept"]:
                done.stored.append(_stored(draft, book, catalogue, chosen))
                done.kept_verdicts.append(done.verdicts[-1])
                ids = done.stored[-1].ids
                if len(ids) == len(draft.samples):
                    results = (one.sample.results for one in draft.samples)
                    done.kept |= zip(ids, results, strict=True)
        except Fault as why:
            if len(names) == 1:
                raise
            done.failed.append((path.name, str(why)))
    return done


def _stored(draft: Draft, book: Book, catalogue: Catalogue, chosen: Chosen) -> Stored:
    well = chosen["well"]
    met = met_in(draft, book, catalogue, well=well) if chosen["take"] else None
    if met is not None:
        added = complete(draft, met, book, well=well)
        return Stored((), (), added=added, corrected=met.corrects)
    return intake.store(
        draft,
        book,
        well=well,
        point=chosen["point"],
        again=chosen["again"],
        told=intake.Told(chosen["preliminary"] or intake.Told.ASK),
    )


def news(
    book: Book,
    catalogue: Catalogue,
    stored: Collection[int],
    kept: Mapping[int, Sequence[NewResult]] = MappingProxyType({}),
) -> Iterator[str]:
    """What is notable in the latest test of each point, where that test was stored just now.

    Args:
        book: The book.
        catalogue: The reference data.
        stored: Numbers of the samples that were stored.
        kept: See `Added`.
    """
    if stored:
        for new in newest_changes(book.record(), catalogue, date.today(), stored, kept):
            yield from latest_change.latest_test(new).splitlines()


def left_out(done: Added, *, accepted: bool) -> Fault:
    """That some of several files could not be taken in, and why the first could not."""
    n = len(done.failed)
    most = n + (len(done.stored) if accepted else len(done.drafts))
    names = ", ".join(name for name, _why in done.failed)
    said = ngettext(
        "{n} of {most} files could not be taken in ({names}). {why}",
        "{n} of {most} files could not be taken in ({names}). {why}",
        n,
    )
    return Fault(said.format(n=n, most=most, names=names, why=done.failed[0][1]))


def _require_results(path: Path) -> None:
    """Refuse a lab's price list, which holds no results."""
    from wellbook.intake.price_list import is_price_list

    if is_price_list(path):
        raise Fault(
            _(
                "{file} is a price list. Nothing was taken in; keep it beside its lab by: "
                "wellbook enter BOOK prices {file} --lab NAME"
            ).format(file=path.name)
        )


def _draft(book: Book, catalogue: Catalogue, path: Path, chosen: Chosen) -> Draft:
    household: dict[str, Any] = settings.of_files(book.setting)

    def by(order: Order, columns: Mapping[str, bool]) -> Draft:
        return intake.read(
            path, catalogue, order=order, password=chosen["password"], columns=columns, **household
        )  # fmt: skip

    order = Order((chosen["dates"] or "").replace("-", " "))
    columns = dict.fromkeys(chosen["columns"], True)
    if order or columns:
        draft = as_remembered(by(order, columns), book, catalogue)
    else:
        draft = read_as_decided(book, catalogue, by)
    return intake.review(draft, catalogue, book, well=chosen["well"], point=chosen["point"])


def _each(files: Sequence[Path]) -> Iterator[Path]:
    """The files, and those in the folders; what a system hides is left out."""
    for path in files:
        if not path.is_dir():
            yield path
            continue
        inside = sorted(one for one in path.rglob("*") if one.is_file() and one.name[0] != ".")
        if not inside or len(inside) > _MOST:
            raise Fault(
                _("{path} holds {n} files; name a folder with 1 to {most} lab files.").format(
                    path=path, n=len(inside), most=_MOST
                )
            )
        yield from inside
