"""Who the household is: place, kind of well, people, lab, and what follows from them."""
