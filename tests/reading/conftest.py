"""Files of uploads written where a test may write."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from stemmap.reading import read_upload
from stemmap.survey.records import Upload

#: Reads one upload of named contents.
Reader = Callable[..., Upload]


@pytest.fixture
def read(tmp_path: Path) -> Reader:
    """Write contents (text or bytes) under their names and read them as one upload."""

    def write_and_read(files: Mapping[str, str | bytes], **columns: str) -> Upload:
        paths = []
        for name, content in files.items():
            path = tmp_path / name
            path.write_bytes(content if isinstance(content, bytes) else content.encode())
            paths.append(path)
        return read_upload(paths, columns=columns)

    return write_and_read


def slugs(upload: Upload) -> list[str]:
    """Slugs of all remarks."""
    return [remark.check for remark in upload.remarks]
