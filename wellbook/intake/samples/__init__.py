"""From rows of a table to the results and samples of a draft, and what is odd about them."""
