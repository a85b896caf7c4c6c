"""The pages of a job and of the shop: rows in, templates filled out; nothing is computed here."""
