"""A claim's folder: its claim.toml read, changed and written."""
