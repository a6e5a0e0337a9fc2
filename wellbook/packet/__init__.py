"""The packet: the history of a well as a PDF, to hand on, to check, and to go on from.

`packet` writes it: `gather` takes the facts as plain values, `pages` set them on paper, `charts`
and `stamping` bring the drawings in, `attachments` what programs read. `receive` checks a packet
and takes one in. Only the modules that set pages load reportlab, pypdf and matplotlib, and
`packet` loads those when it is called. Imports `sharing` and what lies under it.
"""
