"""A large table on its way through a preview: packed, so that twenty thousand rows fit into a form."""

import base64
import binascii
import zlib

from programs.sheets.errors import FileError
from programs.sheets.layout import Layout
from programs.sheets.table import Table, load_table

# Bytes. A form may hold two and a half million (DATA_UPLOAD_MAX_MEMORY_SIZE), and what was mended needs room, too.
MOST_PACKED = 2_000_000


def pack(table: Table) -> str:
    """Return the table as text for a hidden field; FileError for one that does not fit."""
    packed = base64.b64encode(zlib.compress(table.dump().encode(errors="replace"), 6)).decode()
    if len(packed) > MOST_PACKED:
        raise FileError("too_much_text")
    return packed


def unpack(text: str, layout: Layout) -> Table:
    """Return the table that `pack` wrote; FileError when someone else did. No more is unpacked than it can hold."""
    unpacker = zlib.decompressobj()
    # `most_text` counts what every row is written as; a row too many was still added before it was refused.
    most = layout.most_text + 500_000
    try:
        data = unpacker.decompress(base64.b64decode(text, validate=True), most)
        if not unpacker.eof:
            raise ValueError(text[:20])
        content = data.decode()
    except (ValueError, binascii.Error, zlib.error) as error:
        raise FileError("preview_damaged") from error
    return load_table(content, layout)
