"""What concerns the lab: the way to it, its price list and orders, and what is awaited from it."""
