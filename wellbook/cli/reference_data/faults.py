"""What is wrong in a file of the reference data."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong in a file; row 0 where it is not one row's."""

    file: str
    row: int
    says: str

    def __str__(self) -> str:
        """File, row and what is wrong, in one line."""
        return f"{self.file}, row {self.row}: {self.says}" if self.row else self.says


def twice(name: str, keys: Iterable[str]) -> Iterator[Fault]:
    """A fault for each key that stands above, too."""
    seen: set[str] = set()
    for number, key in enumerate(keys, start=2):
        if key and key in seen:
            yield Fault(name, number, f"{key} stands above, too")
        seen.add(key)
