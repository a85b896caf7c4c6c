"""Findings about the car, each held to a job that has the fault and to its twin that has not."""
