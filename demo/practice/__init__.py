"""The invented practice: its people, its programs, and sixteen weeks of simulated training."""
