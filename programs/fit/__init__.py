"""Fitting one program to one client: what differs, and why. Values in, values out: no database, no clock."""
