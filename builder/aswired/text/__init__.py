"""What stands in a file as people write it, and the messages about it.

Quantities, colours, one-line forms, and YAML with the line of every key. No fact of a car is known here.
"""
