"""Where the files that ship with Beadwright are found."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def templates_dir() -> Path:
    """Give the folder of theme, page parts, words and scaffold that ships with Beadwright.

    In a checkout it is `site_templates` beside `plugins`, so that an edit shows at once; in an installed wheel
    it is `beadwright/site_templates`.

    Raises:
        FileNotFoundError: neither is there: the installation is damaged.
    """
    checkout = _PACKAGE.parent.parent
    if _PACKAGE.parent.name == "plugins" and (checkout / "pyproject.toml").is_file():
        return checkout / "site_templates"
    installed = _PACKAGE / "site_templates"
    if not installed.is_dir():
        raise FileNotFoundError(f"Beadwright's own templates are missing from {_PACKAGE}; install it again")
    return installed
