"""The site: jobs rendered aside, checked, then moved into place by MkDocs. The only room that knows MkDocs."""
