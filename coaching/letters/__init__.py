"""The weekly letter to clients and coaches."""
