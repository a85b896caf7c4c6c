"""The geometry of the drawings: lines, boxes and words with their places, no HTML."""
