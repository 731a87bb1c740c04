"""The audit as a whole: every rule, one pass over all claims, each fact told once."""
