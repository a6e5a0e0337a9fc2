"""Wellbook: a record keeper for the households that drink from a private well.

The rooms, from the ground up: `support` is used by all; `water` says what numbers mean; `book`
keeps the record, `wording` says facts in sentences, `pdf` knows paper; `planning` works out what is
due, `charts` describes and draws, `intake` reads lab files, `sandbox` reads documents of others in
a process of its own; `sharing` decides what may leave the house; `packet` and `export` write it;
`window` is the screen and `cli` the commands. Arrows point one way only; DEVELOPERS.md shows them.
"""

__version__ = "0.1.0"
