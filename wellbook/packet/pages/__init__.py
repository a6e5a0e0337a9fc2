"""The pages of a packet: one module a section, each from gathered facts to flowables."""
