"""What a file says of itself, once more as XMP (ISO 16684-1), for programs that read only that.

It is made from the file's properties and says nothing that they don't; whoever reads a packet
makes it anew and compares.
"""

import re
from collections.abc import Mapping
from xml.sax.saxutils import escape

# Properties of a PDF and their names in XMP, with the kind of list that holds a value there: ISO
# 32000-1, 14.3.2 and table 317; XMP specification part 1 (2012), 8.3 to 8.5; part 2, 3.1.
_LANGUAGES, _ORDERED = "Alt", "Seq"
_NAMES = (
    ("Title", "dc:title", _LANGUAGES),
    ("Author", "dc:creator", _ORDERED),
    ("Subject", "dc:description", _LANGUAGES),
    ("Keywords", "pdf:Keywords", ""),
    ("Producer", "pdf:Producer", ""),
    ("Creator", "xmp:CreatorTool", ""),
    ("CreationDate", "xmp:CreateDate", ""),
    ("ModDate", "xmp:ModifyDate", ""),
)
_BEGIN = (
    '<?xpacket begin="\ufeff" id="W5M0MpCehiHzreSzNTczkc9d"?>\n'  # these signs are the standard's
)
_SPACES = (
    'xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" '
    'xmlns:xmp="http://ns.adobe.com/xap/1.0/"'
)
# The signs of PDFDocEncoding that are not those of Latin-1 (ISO 32000-1, annex D.2).
_SIGNS = str.maketrans(
    dict(zip(range(0x18, 0x20), "˘ˇˆ˙˝˛˚˜", strict=True))
    | dict(zip(range(0x80, 0x9F), "•†‡…—–ƒ⁄‹›−‰„“”‘’‚™ﬁﬂŁŒŠŸŽıłœšž", strict=True))
    | {0xA0: "€"}
)
_NO_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def metadata(properties: Mapping[str, bytes]) -> bytes:
    """The XMP of a file.

    Args:
        properties: What the properties of the file say, by their names there, as bytes of a PDF
            text string: UTF-16 with its mark, or PDFDocEncoding.
    """
    told = {name: _text(value) for name, value in properties.items()}
    lines = [_line(theirs, told[ours], kind) for ours, theirs, kind in _NAMES if told.get(ours, "")]
    inner = "\n".join(lines)
    return (
        f'{_BEGIN}<x:xmpmeta xmlns:x="adobe:ns:meta/">\n'
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">\n'
        f'<rdf:Description rdf:about="" {_SPACES}>\n<dc:format>application/pdf</dc:format>\n'
        f"{inner}\n</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n"
        '<?xpacket end="r"?>\n'
    ).encode()


def _text(value: bytes) -> str:
    if value.startswith(b"\xfe\xff"):
        said = value[2:].decode("utf-16-be", "replace")
    else:
        said = value.decode("latin-1").translate(_SIGNS)
    return _NO_XML.sub("\ufffd", said)


def _line(name: str, said: str, kind: str) -> str:
    inner = escape(_moment(said) if name.endswith("Date") else said)
    if kind:
        told = ' xml:lang="x-default"' if kind == _LANGUAGES else ""
        inner = f"<rdf:{kind}><rdf:li{told}>{inner}</rdf:li></rdf:{kind}>"
    return f"<{name}>{inner}</{name}>"


def _moment(said: str) -> str:
    """A day of a PDF, `D:20261128000000Z`, as ISO 8601."""
    digits = said.removeprefix("D:")
    day, hour = digits[:8], digits[8:14]
    return f"{day[:4]}-{day[4:6]}-{day[6:]}T{hour[:2]}:{hour[2:4]}:{hour[4:]}Z"
