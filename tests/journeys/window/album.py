"""A picture of every page, section and dialog, for people who look them over."""

import doors
import hand


def every_place(told):
    """Pictures are numbered in the folder of the journey; their names are among its facts."""
    yield from _go_round(told, doors.PLACES)


def every_page(told):
    """The same of the pages alone, which every book has."""
    for name, steps in doors.PAGES.items():
        yield from doors.walk(steps, {})
        yield from _take(told, name)


def _go_round(told, places):
    for name in places:
        yield from doors.to_place(name, told)
        yield from _take(told, name)
    yield from hand.leave_dialogs()


def _take(told, name):
    yield hand.Rest(20)
    picture = told.folder / f"{len(told.tried):02}.png"
    hand.main_window().grab().save(str(picture))
    if hand.dialog() is not None:
        hand.dialog().grab().save(str(picture))
    told.facts[picture.name] = name
    told.note(name)
