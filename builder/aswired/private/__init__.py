"""Values under `private:` and what goes out to an owner: none may stand in the other, however it is spelt."""

from aswired.private.outgoing import Leak, forbidden_words, leaks, not_sought, written_at

__all__ = ["Leak", "forbidden_words", "leaks", "not_sought", "written_at"]
