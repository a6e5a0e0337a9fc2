"""What a lab or a person did oddly, said beside the facts. A finding asks; it changes nothing."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Finding:
    """One odd thing.

    Attributes:
        key: Stable key of the kind of finding, e.g. `after_receipt`, `charge_balance`.
        text: One plain sentence: what is odd and what to look at.
        where: Where it was seen, e.g. a file's row or a parameter's printed name.
        severity: `stop` keeps it out until it is mended, `ask` wants an answer from a
            person, `note` is only worth knowing.
        results: Numbers of the results concerned, in their book or their draft.
    """

    key: str
    text: str
    where: str = ""
    severity: Literal["stop", "ask", "note"] = "ask"
    results: tuple[int, ...] = ()
