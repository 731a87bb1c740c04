"""Pictures: read within limits, what the camera wrote, what they look like."""
