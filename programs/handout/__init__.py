"""A program laid out for paper: what is to be done, how each exercise is done, why, and from which sources.

`source.py` says what there is (a program's document or a client's dated copy), `options.py` what is wanted of it,
`paper.py` lays it out, `guides.py` reads the exercises, `build.py` puts them together, `pdf.py` makes a file of it.
"""
