"""The harness: what it is made of, where its wires lie, what rows do to it, and the ways of the current."""
