"""The overview of a sampling point: the answer, what is next, where every parameter stands."""
