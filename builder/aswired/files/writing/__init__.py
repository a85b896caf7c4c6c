"""What was decided, written into a job's own files in place: everything that is not meant stays as it was typed."""

from aswired.files.writing.begin import begin_job
from aswired.files.writing.document import NotWritten
from aswired.files.writing.pieces import NewPiece, colour_as_written, write_pieces
from aswired.files.writing.together import Unfinished, settle

__all__ = ["NewPiece", "NotWritten", "Unfinished", "begin_job", "colour_as_written", "settle", "write_pieces"]
