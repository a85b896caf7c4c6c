"""Sheets: the rows of each, text ready to print without HTML, and the page that gives them to its template."""
