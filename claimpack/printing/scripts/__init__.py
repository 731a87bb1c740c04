"""Names in other scripts: which script a letter is of, which typeface has it, in which order the letters stand."""
