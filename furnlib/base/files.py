"""Files and folders that are written whole or not at all."""

from __future__ import annotations

import io
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def whole_file(path: Path) -> Iterator[io.BytesIO]:
    """Collect a file's bytes and put them in place in one move, or leave what was there.

    Args:
        path: the file to write.

    Yields:
        A stream to write to.

    Raises:
        OSError: when the folder cannot be written to; what stood there is untouched.

    Example:
        >>> import tempfile
        >>> with tempfile.TemporaryDirectory() as folder:
        ...     with whole_file(Path(folder, "a.txt")) as stream:
        ...         _ = stream.write(b"whole")
        ...     Path(folder, "a.txt").read_bytes()
        b'whole'
    """
    stream = io.BytesIO()
    yield stream
    target = path.resolve()  # where a link stands in its place, what it leads to is written
    unfinished = target.with_name(f".{target.name}.part")
    try:
        unfinished.write_bytes(stream.getvalue())
        if target.exists():
            shutil.copymode(target, unfinished)
        unfinished.replace(target)
    finally:
        unfinished.unlink(missing_ok=True)


@contextmanager
def whole_folder(path: Path) -> Iterator[Path]:
    """Fill a new folder beside the wanted one and put it in place in one move.

    What stood there before stays until the new one is complete, and stays for good where anything
    goes wrong.

    Args:
        path: the folder to write; its parent must exist.

    Yields:
        The folder to fill.

    Raises:
        OSError: when the parent cannot be written to; what stood there is untouched.

    Example:
        >>> with tempfile.TemporaryDirectory() as parent:
        ...     with whole_folder(Path(parent, "packet")) as folder:
        ...         _ = Path(folder, "a.txt").write_text("whole")
        ...     sorted(p.name for p in Path(parent).iterdir())
        ['packet']
    """
    target = path.resolve()  # where a link stands in its place, what it leads to is written
    unfinished = Path(tempfile.mkdtemp(prefix=f".{target.name[:40]}.part-", dir=target.parent))
    before = unfinished.with_name(unfinished.name.replace(".part-", ".before-"))
    replaced = False
    try:
        yield unfinished
        unfinished.chmod(0o755)  # a temporary folder is private; a packet is shown to others
        if target.exists():
            target.rename(before)
        try:
            unfinished.rename(target)
            replaced = True
        except BaseException:
            if before.exists():
                before.rename(target)
            raise
    finally:
        shutil.rmtree(unfinished, ignore_errors=True)
        if replaced:  # else what stood there is back in its place, or lies beside it: it must not be lost
            shutil.rmtree(before, ignore_errors=True)
