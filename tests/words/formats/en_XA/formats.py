"""Numbers as half of the world writes them, so that a page that feeds one to a machine is found."""

DECIMAL_SEPARATOR = ","
THOUSAND_SEPARATOR = "."
