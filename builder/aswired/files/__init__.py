"""From a job folder to a `Job`, or to every file fault that stands in the way."""

from aswired.files.disknames import check_job_names
from aswired.files.folder import HEADER, SHOP, JobRead, find_jobs, job_files, read_beside, read_job, read_shop

__all__ = [
    "HEADER",
    "SHOP",
    "JobRead",
    "check_job_names",
    "find_jobs",
    "job_files",
    "read_beside",
    "read_job",
    "read_shop",
]
