"""A mail as it is saved: its text, and the files in it."""

import email
import email.policy
import re
from collections.abc import Iterator
from email.message import EmailMessage

_HEAD = re.compile(rb"\A(?:[A-Za-z][A-Za-z0-9-]{1,40}:[^\n]*\n(?:[ \t][^\n]*\n)*){3,}\r?\n")
_MARK = re.compile(
    rb"^(?:from|to|subject|date|received|mime-version):", re.IGNORECASE | re.MULTILINE
)
_MOST_PARTS = 100
_TAG = re.compile(r"<[^<>]*>")


def is_message(content: bytes) -> bool:
    """Whether a file begins as a mail does."""
    start = content[:20_000].replace(b"\r\n", b"\n")
    head = _HEAD.match(start)
    return bool(head) and len(_MARK.findall(head.group())) > 1 if head else False


def parts(content: bytes) -> Iterator[tuple[str, bytes]]:
    """The files in a mail by their names, and its text, which has none."""
    message = email.message_from_bytes(content, policy=email.policy.default)
    plain, page = "", ""
    for number, part in enumerate(message.walk()):
        if number > _MOST_PARTS or not isinstance(part, EmailMessage) or part.is_multipart():
            continue
        name = part.get_filename() or ""
        try:
            packed = part.get_payload(decode=True)
        except (ValueError, LookupError):
            continue
        if not isinstance(packed, bytes) or not packed.strip():
            continue
        if name:
            yield name, packed
        elif part.get_content_type() == "text/plain":
            plain = plain or _text(packed, part)
        elif part.get_content_type() == "text/html":
            page = page or _text(packed, part)
    # The same words twice, as a rule; a plain text may only point to the other.
    text = page if _figures(plain) * 2 < _figures(_TAG.sub("", page)) else plain or page
    if text.strip():
        yield "", text.encode()


def _figures(text: str) -> int:
    return sum(map(str.isdigit, text))


def _text(packed: bytes, part: EmailMessage) -> str:
    try:
        return packed.decode(part.get_content_charset() or "utf-8", "replace")
    except (LookupError, ValueError):  # no such encoding, or no name for one
        return packed.decode("utf-8", "replace")
