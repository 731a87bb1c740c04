"""The tag for a held part."""
