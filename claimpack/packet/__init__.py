"""The packet: drawn from an assessment, with the data it was drawn from inside."""
