"""The command `aswired`: what can be asked, what it prints, how it ends."""
