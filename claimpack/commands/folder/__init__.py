"""Commands about a claim folder alone, without a shop."""
