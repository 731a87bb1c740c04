"""What a warranty booklet says: answers about it read and said back, and made into the keys of a plan."""
