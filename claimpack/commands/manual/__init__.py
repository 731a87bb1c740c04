"""How each command is used: described once, for its help, the manual page and its examples."""
