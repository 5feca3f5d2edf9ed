"""What ends a command from outside, in one line: a key, a full disk, a folder that nobody may write to."""

from __future__ import annotations

import sys
from collections.abc import Callable

REFUSED, STOPPED = 2, 130


def ended(command: Callable[[], int]) -> int:
    """The exit status of a command; REFUSED where the machine refuses a file, STOPPED where a key did."""
    try:
        status = command()
        sys.stdout.flush()
        return status
    except BrokenPipeError:
        raise
    except OSError as fault:
        sys.stderr.write(
            ": ".join(str(part) for part in (fault.filename, fault.strerror or fault) if part) + "\n"
        )
        if not fault.filename:
            sys.stdout = None  # it was what is printed that found no room: it is not tried again
        return REFUSED
    except KeyboardInterrupt:
        sys.stderr.write("Stopped. What is done is kept: start it again and it goes on.\n")
        return STOPPED
