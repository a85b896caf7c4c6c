"""The ledger of copper: what is shown of every length of conductor."""
