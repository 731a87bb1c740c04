"""A warranty booklet asked about question by question, and a plan filled in from the answers."""
