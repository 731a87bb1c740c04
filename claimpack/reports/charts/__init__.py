"""Charts, drawn once and set on paper and on a page."""
