"""Times of the computer's clock in words: when something was entered, since when it is open."""

from datetime import datetime

from wellbook.water.values.local_time import LocalTime
from wellbook.window.common.words import moment_words


def since_words(text: str) -> str:
    """An ISO time in words, in the time of this computer; anything else as it stands."""
    try:
        when = datetime.fromisoformat(text)
    except ValueError:
        return text
    if when.tzinfo is not None:
        when = when.astimezone()
    return moment_words(LocalTime(when.date(), when.time().replace(second=0, microsecond=0)))
