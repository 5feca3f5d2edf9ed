"""A lead as it is made, tested and mended: what a meter should read, faults and what they look and sound
like, the next best measurement, pads, and sheets to build, order and test by. All of it is worked out from
the lead's own circuit."""
