"""The verdict: which plan a claim falls under, every window of it judged, the answer in one line."""
