"""Wood: what species are like, on average."""
