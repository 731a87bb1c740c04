"""The verdict: which plan, which window, its limits, the conditions, and the whole assessment."""
