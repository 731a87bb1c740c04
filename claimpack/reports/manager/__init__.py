"""The manager's report: on paper, as a page, as lists."""
