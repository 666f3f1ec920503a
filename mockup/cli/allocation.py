"""How the C library hands out memory to this program: in few large steps, and kept.

Light is worked out in many short arrays of a megabyte or so. Left to itself glibc gives each back
to the kernel and asks for it again, a page at a time: a tenth of a picture's time.
"""

from __future__ import annotations

import sys

# Parameters of mallopt, from glibc's malloc.h.
_TRIM_THRESHOLD, _TOP_PAD, _MMAP_THRESHOLD, _ARENA_MAX = -1, -2, -3, -8
_MEGABYTE = 1024**2
# Judgements, by time and by peak memory of a 12 megapixel flat-lay.
_KEPT, _STEP, _LARGE, _ARENAS = 256 * _MEGABYTE, 64 * _MEGABYTE, 32 * _MEGABYTE, 2


def settle() -> None:
    """Sets it so where the C library is glibc; nothing is done elsewhere. Call before threads."""
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
