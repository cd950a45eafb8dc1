"""Zip and XML files that are the same, byte for byte, whenever they are made from the same files."""

from __future__ import annotations

import zipfile
from collections.abc import Mapping
from pathlib import Path
from xml.etree import ElementTree as ET

_TIME = (1980, 1, 1, 0, 0, 0)
_FILE = 0o644 << 16


def write_zip(path: Path, files: Mapping[str, bytes | Path]) -> None:
    """Write files by their names in the archive, in order of name. Raises `OSError`."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name in sorted(files):
            held = files[name]
            info = zipfile.ZipInfo(name, _TIME)
            info.compress_type = zipfile.ZIP_DEFLATED
            info.external_attr = _FILE
            archive.writestr(info, held.read_bytes() if isinstance(held, Path) else held)


def list_folder(folder: Path, under: str = "") -> dict[str, Path]:
    """Every file of a folder by its name in an archive, below `under`; hidden files and links are left out."""
    paths = ((path, path.relative_to(folder)) for path in sorted(folder.rglob("*")))
    return {
        f"{under}{name.as_posix()}": path
        for path, name in paths
        if path.is_file() and not path.is_symlink() and not any(part.startswith(".") for part in name.parts)
    }


def write_xml(root: ET.Element) -> bytes:
    """An XML document in UTF-8, with its declaration."""
    text: bytes = ET.tostring(root, encoding="utf-8")
    return b'<?xml version="1.0" encoding="UTF-8"?>\n' + text + b"\n"
