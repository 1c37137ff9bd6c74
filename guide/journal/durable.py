"""Names on the disk: a file that was written and synced is lost with its name in a power cut."""

from __future__ import annotations

import errno
import os
from pathlib import Path

FAILS = (errno.EIO, errno.ENOSPC, errno.EDQUOT)
"""What a disk says that did not keep the names; other systems and places just cannot be asked."""


def keep_names(folder: Path) -> None:
    """Have the names of the files in a folder on the disk before this returns.

    OSError where the disk says that it failed; where folders cannot be synced nothing is done.
    """
    try:
        descriptor = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(descriptor)
    except OSError as error:
        if error.errno in FAILS:
            raise
    finally:
        os.close(descriptor)
