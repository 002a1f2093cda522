"""Sums of numpy and scipy on one thread: two runs of tests side by side on two cores would wait for each other."""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # read when numpy is first imported, which is after this

collect_ignore = ["conftest.py"]  # no examples are in it, and another of its name would be taken for it
