"""What the code on the cover and the seal tell: they are of the bytes of the file."""

import random
import re

from pypdf import PdfReader

from wellbook.packet.receive.reader_process import is_ours
from wellbook.packet.receive.verify import verify
from wellbook.pdf.sealing import marks


def test_the_code_stands_on_the_cover_for_two_readers_and_depends_on_the_book(
    small, packets, text_of
):
    codes = []
    for path in (small, packets()):
        (told,) = re.findall(
            r"Check code\s+(\w{4}(?:-\w{4}){3})\b", text_of(path, rows=True, last=1)
        )
        assert told in PdfReader(path).pages[0].extract_text()
        codes.append(told)
        assert any(told in one.text for one in verify(path))
    assert len(set(codes)) == 2


def altered(content, chance):
    place = chance.randrange(len(content))
    changed = bytearray(content)
    changed[place] ^= chance.randrange(1, 256)
    return bytes(changed)


def agrees(content):
    """Whether a file is one of ours whose seal and code are those of its bytes."""
    found = marks(content)
    return found is not None and found.is_sealed and found.code == found.printed


def test_200_random_changes_of_a_single_byte_are_all_noticed(small):
    chance, content = random.Random(7), small.read_bytes()
    assert agrees(content)
    assert is_ours(content)
    assert not any(agrees(altered(content, chance)) for _ in range(200))


def test_another_word_in_the_file_is_another_code(small):
    content = small.read_bytes()
    title = content.rindex(b"/Title <") + 12  # of a bookmark: the file’s own stands in two places
    changed = content[:title] + b"41" + content[title + 2 :]
    assert is_ours(changed)
    assert marks(changed).code != marks(content).code
    assert marks(changed).printed == marks(content).printed
