"""A claim judged: the conditions of its plan, dates to keep, and the whole assessment."""
