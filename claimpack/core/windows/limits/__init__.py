"""Whether a window is still open: its age, its last day, registration, the hour meter and other meters."""
