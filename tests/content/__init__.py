"""Checks of the course that ships: that it teaches in order, says nothing wrong, and speaks without sight."""
