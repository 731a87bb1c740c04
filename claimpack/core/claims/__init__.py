"""The claim as the shop wrote it: its record, papers and part codes, and what one claim tells of the next."""
