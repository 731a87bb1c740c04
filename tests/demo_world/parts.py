"""Failed parts and instruments, put together from the kit."""
