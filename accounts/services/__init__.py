"""Every change to people, practices and engagements: keyword-only, one transaction, mail after commit."""


class Refused(Exception):
    """A change that the rules do not allow; `str()` of it is a sentence for the person who asked."""
