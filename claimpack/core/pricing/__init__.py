"""The amounts of a claim: parts, labour, extras, and who pays each line."""
