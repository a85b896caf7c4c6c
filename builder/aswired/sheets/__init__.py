"""Rows that pages, print and JSON start from: text ready to print, no HTML, no addresses."""
