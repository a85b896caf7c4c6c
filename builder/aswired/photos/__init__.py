"""Bench photographs: checked early (index), made into publishable files late (derive), marked (marks)."""
