"""One window of cover: whether it speaks about a claim, when cover starts, and its limits."""
