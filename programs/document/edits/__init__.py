"""Changes to a document: each takes the document and returns another one, or raises EditError.

An operation is named and has plain parameters, so that it can be sent by a form, tried again on a newer version, and
said in words. `apply_operation` runs it.
"""

from programs.document.edits import parts, ramps, slots, structure  # noqa: F401 - each registers its operations
from programs.document.edits.registry import OPERATIONS, Operation, apply_operation, apply_to_week

__all__ = ["OPERATIONS", "Operation", "apply_operation", "apply_to_week"]
