"""What makers and laws promise: coverage plans, payment terms, and the words for components."""
