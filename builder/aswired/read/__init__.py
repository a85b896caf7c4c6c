"""From a job folder to a `Job`, or to every file fault that stands in the way."""

from aswired.read.folder import SHOP, JobRead, find_jobs, job_files, read_beside, read_job, read_shop

__all__ = ["SHOP", "JobRead", "find_jobs", "job_files", "read_beside", "read_job", "read_shop"]
