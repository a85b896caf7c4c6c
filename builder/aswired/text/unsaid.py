"""Words that stand where nothing was written, read, measured or judged.

They are a type of their own, so that no sheet and no template asks for the words: whoever says them in another way
changes nothing else.
"""

from __future__ import annotations


class Unsaid(str):
    """What is printed in the place of a fact that nobody told."""


NOT_RECORDED = Unsaid("not recorded")
NOT_KNOWN = Unsaid("not known")  # written as unknown
NOT_MEASURED = Unsaid("not measured")
NOT_COMPUTED = Unsaid("not computed")
NOT_READ = Unsaid("not read")
SIZE_NOT_READ = Unsaid("size not read")
NOT_JUDGED = Unsaid("not judged")
DATE_NOT_NOTED = Unsaid("date not noted")
