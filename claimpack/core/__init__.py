"""What the shop knows and how it decides: frozen values and pure functions, no file, clock or printing."""
