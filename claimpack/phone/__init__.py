"""The technician's phone: a page on the shop's own network, and what comes back from it."""
