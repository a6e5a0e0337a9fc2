"""What a forger of packets does: files changed by hand, by other programs, and sealed anew."""

import hashlib
import io
import re
import zlib
from pathlib import Path

import pikepdf
from pypdf import PdfReader, PdfWriter
from pypdf.annotations import FreeText
from pypdf.generic import NameObject

from wellbook.packet import words
from wellbook.packet.receive import reader_process
from wellbook.packet.receive.packet_file import unpacked
from wellbook.packet.receive.verify import Outcome, checks, stands
from wellbook.pdf import own_form
from wellbook.pdf.sealing import marks, sealed
from wellbook.pdf.spelling import Name, Reference, Stream
from wellbook.support.errors import Fault

LIE = b"BT /F1+0 20 Tf 60 700 Td (No reading was ever outside a limit) Tj ET"


def in_form(content, change):
    """A packet changed inside the form in which packets are written."""
    objects, trailer = own_form.read(content)
    change(objects, trailer)
    return own_form.written(objects, trailer, b"0" * own_form.SEAL_LETTERS)


def renewed(content):
    """The same with code and seal made anew, by our own function or as far as a hand can."""
    try:
        return sealed(content)
    except ValueError:
        pass
    if own_form.MARK not in content:
        head, rest = content.split(b"\n", 2)[:2], content.split(b"\n", 2)[2]
        content = b"\n".join((*head, own_form.HEAD.splitlines()[2], rest))
    if own_form.SEAL not in content and b"startxref" in content:
        place = content.rindex(b"startxref")
        content = content[:place] + own_form.SEAL + b"0" * 64 + b"\n" + content[place:]
    found = list(re.finditer(re.escape(own_form.SEAL) + rb"([0-9a-f]{64})", content))
    if not found:
        return content
    start, end = found[-1].span(1)
    opened = content[:start] + b"0" * 64 + content[end:]
    return content[:start] + hashlib.sha256(opened).hexdigest().encode() + content[end:]


def with_files(path, target, changes):
    """A copy of a packet with some attached files changed (None: taken out), sealed anew."""

    def change(objects, trailer):
        added = {
            name: new_file(objects, name.encode(), body)
            for name, body in changes.items()
            if body is not None and name not in held_files(objects, trailer)[1]
        }
        listed, held = held_files(objects, trailer)
        for name, body in changes.items():
            if body is None:
                del held[name]
            elif name not in added:
                refill(objects[got(objects, got(objects, held[name])["EF"])["F"].number], body)
        held |= added
        listed[:] = [part for name in sorted(held) for part in (name.encode(), held[name])]
        swept(objects, trailer)

    target.write_bytes(renewed(in_form(path.read_bytes(), change)))
    return target


def remade(content, change):
    """A packet remade whole with this very program: the words of its pages, its code, its seal."""
    forged = in_form(content, change)

    def renew(objects, trailer):
        held = held_files(objects, trailer)[1][words.NAME]
        refill(objects[got(objects, got(objects, held)["EF"])["F"].number], words.words(forged))

    return sealed(in_form(forged, renew))


def refill(stream, body):
    """An attached file with other bytes, and with the size and the sum that go with them."""
    digest = hashlib.md5(body, usedforsecurity=False).digest()
    stream.facts.update(Filter=Name("FlateDecode"), Params={"Size": len(body), "CheckSum": digest})
    stream.data = zlib.compress(body)


def held_files(objects, trailer):
    """The list of attached files, and each by its name."""
    names = got(objects, catalogue(objects, trailer)["Names"])
    listed = got(objects, got(objects, names["EmbeddedFiles"])["Names"])
    return listed, dict(zip((one.decode() for one in listed[::2]), listed[1::2], strict=True))


def new_file(objects, name, body):
    """A file specification about to be listed, whose bytes are put among the objects."""
    stream = Stream({"Type": Name("EmbeddedFile")}, b"")
    refill(stream, body)
    held = put(objects, stream)
    return {"Type": Name("Filespec"), "F": name, "EF": {"F": held}}


def got(objects, found):
    """A value, or what it points to."""
    return objects[found.number] if isinstance(found, Reference) else found


def catalogue(objects, trailer):
    return objects[trailer["Root"].number]


def pages(objects, trailer):
    tree = objects[catalogue(objects, trailer)["Pages"].number]
    return tree, [objects[one.number] for one in got(objects, tree["Kids"])]


def put(objects, made):
    """One more object, before the last one, which draws the code."""
    last = len(objects)
    objects[last + 1], objects[last] = objects[last], made

    def moved(value):
        if isinstance(value, Reference):
            return Reference(last + 1) if value.number == last else value
        if isinstance(value, list):
            return [moved(one) for one in value]
        if isinstance(value, dict):
            return {key: moved(one) for key, one in value.items()}
        if isinstance(value, Stream):
            return Stream(moved(value.facts), value.data)
        return value

    for number, one in objects.items():
        if number != last:
            _refill(objects, number, moved(one))
    return Reference(last)


def _refill(objects, number, new):
    """Change an object in place, so that who holds it sees the change."""
    old = objects[number]
    if isinstance(old, dict):
        old.clear()
        old.update(new)
    elif isinstance(old, list):
        old[:] = new
    elif isinstance(old, Stream):
        old.facts, old.data = new.facts, new.data
    else:
        objects[number] = new


def swept(objects, trailer):
    """Leave out what nothing points to any more, and close the gaps in the numbers."""
    waiting, seen = own_form.references(dict(trailer)), set()
    while waiting:
        number = waiting.pop()
        if number not in seen:
            seen.add(number)
            waiting += own_form.references(objects[number])
    anew = {old: new for new, old in enumerate(sorted(seen), start=1)}

    def moved(value):
        if isinstance(value, Reference):
            return Reference(anew[value.number])
        if isinstance(value, list):
            return [moved(one) for one in value]
        if isinstance(value, dict):
            return {key: moved(one) for key, one in value.items()}
        if isinstance(value, Stream):
            return Stream(moved(value.facts), value.data)
        return value

    kept = {anew[old]: moved(objects[old]) for old in sorted(seen)}
    objects.clear()
    objects.update(kept)
    for key in trailer:
        trailer[key] = moved(trailer[key])


def contents_of(objects, page):
    found = page["Contents"]
    return objects[(found[-1] if isinstance(found, list) else found).number]


def drawn_over(objects, page, drawing=LIE):
    """A page whose own stream draws something more."""
    stream = contents_of(objects, page)
    stream.data = zlib.compress(zlib.decompress(stream.data) + b"\n" + drawing)


def by_pikepdf(content, change=lambda _: None, **how):
    target = io.BytesIO()
    with pikepdf.open(io.BytesIO(content)) as document:
        change(document)
        document.save(target, **how)
    return target.getvalue()


def is_vouched_for(content):
    """Whether a packet with these bytes could be gone on from, looked at without a process.

    What `open_packet` does beside this is tried at the door, by commands.
    """
    found = marks(content)
    if found is None:
        return False
    told = reader_process.read(content)
    if not told.facts["ours"]:
        return False
    try:
        found_checks = checks(unpacked(Path("p.pdf"), content, told, found))
    except Fault:
        return False
    return stands(found_checks) or Outcome.HOLDS in {one.outcome for one in found_checks}


def scripted(document):
    document.Root.OpenAction = pikepdf.Dictionary(S=pikepdf.Name.JavaScript, JS="app.alert(1)")


def by_pypdf(content, change=lambda _: None, *, incremental=False):
    if incremental:
        writer = PdfWriter(io.BytesIO(content), incremental=True)
    else:
        writer = PdfWriter(clone_from=PdfReader(io.BytesIO(content)))
    change(writer)
    target = io.BytesIO()
    writer.write(target)
    return target.getvalue()


def remark(writer):
    writer.add_annotation(0, FreeText(text="All clear", rect=(60, 600, 500, 700)))


def retitle(writer):
    writer.root_object[NameObject("/Lang")] = NameObject("/en")
