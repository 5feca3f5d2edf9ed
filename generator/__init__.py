"""Ringfence: from a catalogue of connectors, ports and leads to judged connections, drawings and a site."""

import os

# Matrices are small and the cores have a connection each: threads within a solve only wait for one another.
# NumPy reads this at its first import.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
