"""The commands: one module a subject, with its text and its JSON.

`main` is the door and loads the rest when it is asked for. May import every package.
"""
