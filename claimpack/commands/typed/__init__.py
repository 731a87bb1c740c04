"""What people type, taken as they mean it: the claim at hand, days and amounts."""
