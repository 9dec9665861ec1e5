"""How Python looks for garbage in a process that answers requests."""

import gc

# Objects made since the last look. A page makes tens of thousands that go by themselves: to look through them every few
# hundred is a tenth of its time.
YOUNG = 10_000


def settle() -> None:
    """Leave what is loaded by now out of every search, and search less often: call it once, when all is loaded.

    To look through a whole server's modules and templates holds a request up by tens of milliseconds now and then.
    """
    gc.collect()
    gc.freeze()
    gc.set_threshold(YOUNG, *gc.get_threshold()[1:])
