"""A picture of every page, section and dialog, for people who look them over."""

import doors
import hand


def every_place(told):
    """Pictures are numbered in the folder of the journey; their names are among its facts."""
    for name in doors.PLACES:
        yield from doors.to_place(name, told)
        yield hand.Rest(20)
        picture = told.folder / f"{len(told.tried):02}.png"
        hand.main_window().grab().save(str(picture))
        if hand.dialog() is not None:
            hand.dialog().grab().save(str(picture))
        told.facts[picture.name] = name
        told.note(name)
    yield from hand.leave_dialogs()
