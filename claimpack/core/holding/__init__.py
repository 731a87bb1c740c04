"""Held parts: what their tags say, how they are handled, when one may go."""
