"""Plain arithmetic of the bench: numbers in, numbers out; no files and no model."""
