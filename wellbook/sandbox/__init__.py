"""Documents of others, read in a process of its own within bounds of time and memory.

`process.ask` starts a reader and hears its answer as JSON and bytes; `bounds` is what the reader's
side needs. Imports `pdf`, `book` and `support`.
"""
