"""The figures of a job worked out from its views: resistance and drop, grounds, fuses, places. Every one a `Figure`."""
