"""What the window says of reminders at sign-in: a lost book, a moved one, one of elsewhere."""

import hand

from wellbook.support import sign_in, watched_books


def _said():
    return hand.main_window().bar.text


def _painted():
    yield lambda: hand.main_window().view._was_painted
    yield hand.Rest()


def said_at_the_start(told):
    yield from _painted()
    told.facts["said"] = _said()
    told.note("start")


def taken_over(told):
    yield from _painted()
    told.facts["said"] = _said()
    (book,) = told.books
    told.facts["before"] = [sign_in.is_on(book), len(watched_books.watched())]
    yield from hand.push("Tell me here, too")
    told.facts["after"] = [sign_in.is_on(book), len(watched_books.watched())]
    told.facts["kept"] = _said()
    told.note("taken over")


def given_up(told):
    yield from _painted()
    told.facts["said"] = _said()
    yield from hand.push("Look for it no more")
    told.facts["left"] = len(watched_books.watched())
    told.note("given up")
