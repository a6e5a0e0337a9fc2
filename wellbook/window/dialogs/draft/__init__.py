"""From a lab's file or by hand to a test: the draft that a person looks over."""
