"""What the tool says, by subject: sentences kept as a key and its facts, so that a layout may say them otherwise."""
