"""Where in the cells tables lie, what their columns are, and the words beside them."""
