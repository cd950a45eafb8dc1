"""The MkDocs plugin: the only room that knows MkDocs."""

from beadwright.site.plugin import BeadwrightPlugin

__all__ = ["BeadwrightPlugin"]
