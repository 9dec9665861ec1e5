"""A file that cannot be read at all."""


class FileError(ValueError):
    """The file is not what it should be; the message says it to whoever chose it."""
