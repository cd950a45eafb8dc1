"""Beadwright: lesson files in, an accessible course on bead frames out.

Each room is a package of its own (`engine`, `course`, `practice`, `render`, `records`, `site`); nothing is
imported here, so that a user of one room pays for that room alone.
"""

__version__ = "0.1.0"
__all__ = ["__version__"]
