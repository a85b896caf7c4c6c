"""aswired: a shop's wire change lists and bench photographs, compiled into the record of a car as it is now wired."""

__version__ = "0.1.0"
