"""Planned sessions as a calendar (RFC 5545)."""
