"""A program's content: blocks -> weeks -> training days -> slots.

Frozen dataclasses, read from and written to the JSON of `Program.document`. Nothing here touches the database: an
operation takes a document and returns another one.
"""

from programs.document.errors import DocumentError, EditError
from programs.document.find import Place, find
from programs.document.model import Block, Day, Document, Slot, Week
from programs.document.pairs import labels
from programs.document.parse import document_from_json
from programs.document.prescription import Prescription, read_prescription
from programs.document.write import document_to_json, written

__all__ = [
    "Block",
    "Day",
    "Document",
    "DocumentError",
    "EditError",
    "Place",
    "Prescription",
    "Slot",
    "Week",
    "document_from_json",
    "document_to_json",
    "find",
    "labels",
    "read_prescription",
    "written",
]
