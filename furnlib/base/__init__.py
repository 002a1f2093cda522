"""Floor 0: lengths, angles, one-sentence errors and the glossary. Only numpy is used here."""
