"""Writes an amended plan: whole or not at all."""

from __future__ import annotations

import errno
import os
import tempfile
from contextlib import suppress
from pathlib import Path


class FileChanged(Exception):
    """The file is not what was reviewed any more."""


def write(path: Path, read: bytes, text: str, *, keep: bool = False) -> Path | None:
    """Replace the file by `text`, in one step, if it still has the bytes that were `read`; FileChanged if not.

    A byte order mark stays, and so does the file's mode. With `keep` the previous file is kept beside it; its path is
    returned. OSError where the folder cannot be written.
    """
    mark = b"\xef\xbb\xbf" if read.startswith(b"\xef\xbb\xbf") else b""
    target = path.resolve()
    if not target.stat().st_mode & 0o222:
        raise PermissionError(errno.EACCES, "the file is marked read-only")
    if target.stat().st_nlink > 1:
        raise OSError(errno.EMLINK, "the file has other names (hard links), which would keep the plan as it was")
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    new = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(mark + text.encode())
            stream.flush()
            os.fsync(stream.fileno())
        _like(new, target)
        if target.read_bytes() != read:
            raise FileChanged(f"{path} was changed while it was reviewed")
        kept = _kept(target, read) if keep else None
        new.replace(target)
        return kept
    finally:
        new.unlink(missing_ok=True)


def _kept(target: Path, read: bytes) -> Path:
    """A copy beside the file, under the first name that is free: nothing that is there is overwritten."""
    number = 1
    while True:
        kept = target.with_name(f"{target.name}.previous" if number == 1 else f"{target.name}.previous-{number}")
        try:
            stream = kept.open("xb")
        except FileExistsError:
            number += 1
            continue
        try:
            with stream:
                _like(kept, target)
                stream.write(read)
        except OSError:
            kept.unlink()  # half a copy is none
            raise
        return kept


def _like(new: Path, file: Path) -> None:
    """Give a new file the owner and the mode of another: what only some may read stays so."""
    stated = file.stat()
    if hasattr(os, "chown") and (stated.st_uid, stated.st_gid) != (new.stat().st_uid, new.stat().st_gid):
        with suppress(PermissionError):  # only the superuser gives files away; then it stays with who writes
            os.chown(new, stated.st_uid, stated.st_gid)
    new.chmod(stated.st_mode & 0o7777)
