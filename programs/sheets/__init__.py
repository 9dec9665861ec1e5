"""Tables that a spreadsheet wrote, whatever they are about: read, checked cell by cell, mended, and written again.

What a table's columns are stands in a `Layout`; what its cells mean, with whoever reads that layout (programs/exchange
for programs, logbook/past for past training).
"""
