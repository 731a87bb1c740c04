"""Windows of cover: whether one speaks about a claim, whether it is open, and the verdict over all."""
