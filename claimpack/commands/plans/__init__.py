"""Plans and the other files that a shop writes: begun, looked over, tried."""
