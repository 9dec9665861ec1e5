"""Keeps who looked at whose pages and who changed what."""
