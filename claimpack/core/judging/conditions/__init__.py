"""What a plan asks for before a claim is filed, and what a maker may ask about: each condition a rule."""
