"""The reference data that the window hands down: catalogue and cautions."""

from dataclasses import dataclass
from pathlib import Path

from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import Catalogue, read_catalogue
from wellbook.water.verdicts.cautions import Cautions, read_cautions


@dataclass(frozen=True, slots=True)
class Reference:
    """What is read once at the start and never changes."""

    catalogue: Catalogue
    cautions: Cautions


def read_reference(folder: Path) -> Reference:
    """Read the reference data.

    Raises:
        Fault: A file is missing or makes no sense.
    """
    try:
        return Reference(read_catalogue(folder), read_cautions(folder / "cautions.toml"))
    except (OSError, ValueError) as error:
        raise Fault(f"The reference data in {folder} can't be read: {error}.") from error
