"""Facts in sentences, for charts, packets and commands, in the language of now.

Imports `water` and `support`. What is passed in are values; what comes out is text.
"""
