"""What can be wrong with a document, or with a change to it."""


class DocumentError(ValueError):
    """The JSON is not a program. `path` says where, as in `blocks[0].weeks[1].days`."""

    def __init__(self, path: str, message: str) -> None:
        super().__init__(f"{path}: {message}" if path else message)
        self.path = path
        self.message = message


class EditError(ValueError):
    """A change that cannot be made. `field` names what was typed wrongly, or is empty."""

    def __init__(self, message: str, field: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.field = field
