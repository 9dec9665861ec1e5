"""The page on which a program is fitted to many clients: read what fitting asks for, and show what it says."""
