"""Files and folders that are written whole or not at all."""

from __future__ import annotations

import io
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
    unfinished = path.with_name(f".{path.name}.part")
    try:
        unfinished.write_bytes(stream.getvalue())
        unfinished.replace(path)
    finally:
        unfinished.unlink(missing_ok=True)
