"""Cases: how legs are fixed under them, and what keeps one upright."""
