"""The two roots of things that go wrong.

A `Fault` is something about the world that a person can do something about: a file that is
locked, full, read-only, damaged, newer, or not what it should be. Its text is the one sentence
that the person reads: what, where, and what to do. Anything else that is raised is a bug.
"""


class Fault(Exception):
    """What can't be done here, in one sentence for the person at the screen."""
