"""The rules of the audit, a file for each subject."""
