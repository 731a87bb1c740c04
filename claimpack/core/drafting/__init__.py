"""What helps to write a plan and the other files of a shop: what keys mean, and what a plan would pay."""
