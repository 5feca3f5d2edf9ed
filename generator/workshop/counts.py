"""How many tests a plain lead of n conductors takes, for the pages: with two probes, and with contacts
joined under a probe."""


def two_probe_readings(contacts: int) -> int:
    """Each conductor end to end, and every pair within one end."""
    return contacts + contacts * (contacts - 1) // 2


def multi_probe_tests(contacts: int) -> int:
    """p - 1 + ceil(log2 q) ('Testing for faults in wiring networks', IEEE Transactions on Computers C-23,
    1974): p = 2 terminals in the largest cluster, q = n clusters."""
    return 1 + (contacts - 1).bit_length()
