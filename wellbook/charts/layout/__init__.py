"""Where on the paper things lie: the plot, labels, the key, colours and pens."""
