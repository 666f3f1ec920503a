"""How this program is handed memory, and gives it back: in few large steps.

Light is worked out in many short arrays of a megabyte or so. Left to itself glibc gives each back
to the kernel and asks for it again, a page at a time: a tenth of a picture's time.
"""

from __future__ import annotations

import gc
import sys

# Parameters of mallopt, from glibc's malloc.h.
_TRIM_THRESHOLD, _TOP_PAD, _MMAP_THRESHOLD, _ARENA_MAX = -1, -2, -3, -8
_MEGABYTE = 1024**2
# Judgements, by time and by peak memory of a 12 megapixel flat-lay.
_KEPT, _STEP, _LARGE, _ARENAS = 256 * _MEGABYTE, 64 * _MEGABYTE, 32 * _MEGABYTE, 2
_OBJECTS = 100_000  # new ones before circles of them are looked for: loading the program makes many


def settle() -> None:
    """Sets it so, the C library's share where that is glibc. Call before threads are started."""
    gc.set_threshold(_OBJECTS)
    if sys.platform != "linux":
        return
    import ctypes

    mallopt = getattr(ctypes.CDLL(None), "mallopt", None)
    if mallopt is None:  # another C library
        return
    mallopt(_TRIM_THRESHOLD, _KEPT)
    mallopt(_TOP_PAD, _STEP)
    mallopt(_MMAP_THRESHOLD, _LARGE)
    mallopt(_ARENA_MAX, _ARENAS)


def leave() -> None:
    """Has the collector look for nothing more: all is given back with the process."""
    gc.freeze()
