"""PDFs that are broken or made to hold up whoever reads them, byte by byte."""

import io
import zlib

from pypdf import PdfWriter

PAGE = b"<</Type/Page/Parent 2 0 R/MediaBox[0 0 300 300]/Contents 4 0 R/Resources %s>>"
FONT = b"<</Font<</F1<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>>>>>"
TEXT = b"BT /F1 12 Tf 20 200 Td (Quiet water 7.2) Tj ET"
CATALOG = b"<</Type/Catalog/Pages 2 0 R>>"
TREE = b"<</Type/Pages/Kids[3 0 R]/Count 1>>"


def stream(content, entries=b""):
    return b"<</Length %d %s>>stream\n%s\nendstream" % (len(content), entries, content)


def packed(content, entries=b""):
    return stream(zlib.compress(content, 1), b"/Filter/FlateDecode " + entries)


def zeros(megabytes):
    """Zeros in the zlib format (RFC 1950), packed block by block without ever being held."""
    packing = zlib.compressobj(9, zlib.DEFLATED, -15)
    block = packing.compress(bytes(1_000_000)) + packing.flush(zlib.Z_FULL_FLUSH)
    checksum = (megabytes * 1_000_000 % 65_521) << 16 | 1  # Adler-32 of nothing but zeros
    return b"\x78\xda" + block * megabytes + b"\x03\x00" + checksum.to_bytes(4)


def pdf(*objects, prev=b"", trailer=b""):
    """A PDF of these objects, numbered from 1, the first being the catalog."""
    out = io.BytesIO(b"%PDF-1.7\n")
    out.seek(0, io.SEEK_END)
    places = []
    for number, one in enumerate(objects, start=1):
        places.append(out.tell())
        out.write(b"%d 0 obj\n%s\nendobj\n" % (number, one))
    table = out.tell()
    out.write(b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1))
    out.writelines(b"%010d 00000 n \n" % place for place in places)
    prev = b"/Prev %d" % table if prev else b""
    out.write(b"trailer\n<</Size %d/Root 1 0 R%s%s>>\n" % (len(objects) + 1, prev, trailer))
    out.write(b"startxref\n%d\n%%%%EOF\n" % table)
    return out.getvalue()


def one_page(contents=None, resources=FONT, *more, page=PAGE):
    return pdf(CATALOG, TREE, page % resources, contents or stream(TEXT), *more)


def plain():
    return one_page()


def table_loop():
    return pdf(CATALOG, TREE, PAGE % FONT, stream(TEXT), prev=b"itself")


def tree_loop():
    return pdf(CATALOG, b"<</Type/Pages/Kids[2 0 R 2 0 R]/Count 2/Parent 2 0 R>>")


def deep_tree(depth=5_000):
    levels = [
        b"<</Type/Pages/Kids[%d 0 R]/Count 1/Parent %d 0 R>>" % (number + 1, max(number - 1, 2))
        for number in range(2, depth + 2)
    ]
    leaf = b"<</Type/Page/MediaBox[0 0 300 300]/Parent %d 0 R>>" % (depth + 1)
    return pdf(CATALOG, *levels, leaf)


def wide_tree():
    """Ten times ten times … the same page, a billion in all."""
    levels = [
        b"<</Type/Pages/Count 1000000000/Kids[%s]>>" % (b"%d 0 R " % (number + 1) * 10)
        for number in range(2, 11)
    ]
    return pdf(CATALOG, *levels, b"<</Type/Page/MediaBox[0 0 300 300]>>")


def unpacking_contents():
    return one_page(stream(zeros(2_000), b"/Filter/FlateDecode"))


def packed_thrice():
    content = zlib.compress(zlib.compress(zeros(2_000)))
    return one_page(stream(content, b"/Filter[/FlateDecode/FlateDecode/FlateDecode]"))


def many_filters():
    return one_page(stream(b"00" * 1_000, b"/Filter[" + b"/ASCIIHexDecode" * 100_000 + b"]"))


def million_objects():
    """Its pages lie in a stream of a million objects."""
    count = 1_000_000
    numbers = b"".join(
        b"%d %d " % (number, 2 * place) for place, number in enumerate(range(10, count + 10))
    )
    held = packed(numbers + b"1 " * count, b"/Type/ObjStm/N %d/First %d" % (count, len(numbers)))
    table = io.BytesIO()
    table.writelines(bytes([2]) + (5).to_bytes(4) + place.to_bytes(4) for place in range(count))
    body = b"%PDF-1.7\n"
    kinds = []
    for number, one in enumerate((CATALOG, TREE, PAGE % FONT, stream(TEXT), held), start=1):
        kinds.append(bytes([1]) + len(body).to_bytes(4) + bytes(4))
        body += b"%d 0 obj\n%s\nendobj\n" % (number, one)
    rows = bytes(9) + b"".join(kinds) + table.getvalue()
    place = len(body)
    body += b"6 0 obj\n" + packed(
        rows,
        b"/Type/XRef/W[1 4 4]/Root 1 0 R/Size %d/Index[0 6 10 %d]" % (count + 10, count),
    )
    return body + b"\nendobj\nstartxref\n%d\n%%%%EOF\n" % place


def large_picture():
    image = stream(
        zeros(2_000),
        b"/Type/XObject/Subtype/Image/Width 30000/Height 30000/BitsPerComponent 8"
        b"/ColorSpace/DeviceRGB/Filter/FlateDecode",
    )
    return one_page(stream(b"q 300 0 0 300 0 0 cm /I Do Q"), b"<</XObject<</I 5 0 R>>>>", image)


def slow_pictures(count=4):
    """Each row is told from the one above it, byte by byte."""
    columns, rows = 20_000, 1_000
    packing = zlib.compressobj(9)
    row = b"\4" + bytes(columns * 3)
    content = b"".join(packing.compress(row) for _ in range(rows)) + packing.flush()
    entries = (
        b"/Type/XObject/Subtype/Image/Width %d/Height %d/BitsPerComponent 8/ColorSpace/DeviceRGB"
        b"/Filter/FlateDecode/DecodeParms<</Predictor 15/Colors 3/Columns %d>>"
    ) % (columns, rows, columns)
    names = b"".join(b"/I%d %d 0 R" % (number, number + 5) for number in range(count))
    return one_page(
        stream(b"/I0 Do"), b"<</XObject<<%s>>>>" % names, *[stream(content, entries)] * count
    )


def slow_contents():
    """What the page draws is told byte by byte from what stands above it."""
    columns = 60_000
    packing = zlib.compressobj(9)
    content = packing.compress((b"\4" + b" " * columns) * 1_000) + packing.flush()
    return one_page(
        stream(content, b"/Filter/FlateDecode/DecodeParms<</Predictor 15/Columns %d>>" % columns)
    )


def form(content, resources=b""):
    return stream(content, b"/Type/XObject/Subtype/Form/BBox[0 0 300 300]" + resources)


def forms_in_a_circle():
    again = b"/Resources<</XObject<</A 5 0 R/B 6 0 R>>>>"
    return one_page(
        stream(b"/A Do"), b"<</XObject<</A 5 0 R>>>>",
        form(b"/B Do /B Do", again), form(b"/A Do /A Do", again),
    )  # fmt: skip


def forms_by_the_billion():
    """Each form draws the next one ten times."""
    levels = [
        form(b"/N Do " * 10, b"/Resources<</XObject<</N %d 0 R>>>>" % number)
        for number in range(6, 18)
    ]
    return one_page(stream(b"/N Do"), b"<</XObject<</N 5 0 R>>>>", *levels, form(TEXT))


def forms_in_a_row(depth=2_000):
    levels = [
        form(b"/N Do", b"/Resources<</XObject<</N %d 0 R>>>>" % number)
        for number in range(6, depth + 6)
    ]
    return one_page(stream(b"/N Do"), b"<</XObject<</N 5 0 R>>>>", *levels, form(TEXT))


def wide_forms():
    """Thirty forms, each with all thirty in its resources."""
    names = b"".join(b"/N%d %d 0 R" % (number, number) for number in range(5, 35))
    each = form(b"q Q", b"/Resources<</XObject<<%s>>>>" % names)
    return one_page(None, FONT[:-2] + b"/XObject<<%s>>>>" % names, *[each] * 30)


def marks_of_marks(depth=12):
    """A font each of whose marks writes ten marks of the next font."""
    fonts = []
    for number in range(depth):
        glyph = 6 + 2 * number
        fonts += [
            b"<</Type/Font/Subtype/Type3/FontBBox[0 0 1 1]/FontMatrix[1 0 0 1 0 0]/FirstChar 97"
            b"/LastChar 97/Widths[1]/Encoding<</Differences[97/a]>>/CharProcs<</a %d 0 R>>"
            b"/Resources<</Font<</F1 %d 0 R>>>>>>" % (glyph, glyph + 1),
            stream(b"1 0 d0 BT /F1 1 Tf (aaaaaaaaaa) Tj ET"),
        ]
    return one_page(stream(b"BT /F1 1 Tf (a) Tj ET"), b"<</Font<</F1 5 0 R>>>>", *fonts, FONT[9:-4])


def nested(depth=50_000):
    return one_page(None, FONT[:-2] + b"/Deep " + b"[" * depth + b"]" * depth + b">>")


def chain(length=5_000):
    """A value that is one level deeper with each object."""
    links = [b"<</Next %d 0 R>>" % number for number in range(6, length + 6)]
    return one_page(None, FONT[:-2] + b"/Chain 5 0 R>>", *links, b"<<>>")


def letters_by_the_billion():
    """A font whose table of letters goes from zero to four billion."""
    said = b"1 begincodespacerange <00> <FFFFFFFF> endcodespacerange "
    said += b"1 beginbfrange <00000000> <FFFFFFFF> <0041> endbfrange"
    font = b"<</Font<</F1<</Type/Font/Subtype/Type0/BaseFont/X/Encoding/Identity-H/ToUnicode 5 0 R"
    return one_page(
        None, font + b"/DescendantFonts[<</Subtype/CIDFontType2/DW 1>>]>>>>>>", stream(said)
    )


def many_words():
    return one_page(packed(b"BT /F1 12 Tf " + b"(a) Tj " * 2_000_000 + b"ET"))


def run_lengths():
    return one_page(stream(b"\x81\0" * 5_000_000, b"/Filter/RunLengthDecode"))


def lzw():
    return one_page(stream(b"\x80\x0b\x60\x50\x22\x0c" * 50_000, b"/Filter/LZWDecode"))


def ascii_85():
    return one_page(stream(b"z" * 1_000_000, b"/Filter/ASCII85Decode"))


def picture(entries, content, side=60_000):
    made = stream(
        content,
        b"/Type/XObject/Subtype/Image/Width %d/Height %d/BitsPerComponent 1"
        b"/ColorSpace/DeviceGray%s" % (side, side, entries),
    )
    return one_page(stream(b"/I Do"), b"<</XObject<</I 5 0 R>>>>", made)


def jbig2():
    return picture(b"/Filter/JBIG2Decode/DecodeParms<</JBIG2Globals 5 0 R>>", b"\0\0\0\0\x30" * 900)


def fax():
    return picture(b"/Filter/CCITTFaxDecode/DecodeParms<</K -1/Columns 60000>>", b"\xff" * 9_000)


def unknown_filter():
    return picture(b"/Filter/Pleat", b"?" * 100, side=60)


def jbig2_in_a_circle():
    """The picture is its own dictionary of shapes."""
    globals_ = b"/Filter/JBIG2Decode/DecodeParms<</JBIG2Globals 5 0 R>>"
    return picture(globals_, b"\0\0\0\0\x30" * 900, side=60)


def no_size():
    return one_page(page=PAGE.replace(b"0 0 300 300", b"0 0 0 0"))


def endless_size():
    return one_page(page=PAGE.replace(b"0 0 300 300", b"0 0 " + b"9" * 60 + b" 1e400"))


def no_numbers():
    return one_page(page=PAGE.replace(b"0 0 300 300", b"/A (b) null true"))


def turned_oddly():
    return one_page(page=PAGE.replace(b"/Contents", b"/Rotate 37/Contents"))


def torn():
    return plain()[:-250]


def empty():
    return b"%PDF-1.7\n%%EOF\n"


def noise():
    return b"%PDF-1.7\n" + bytes(range(256)) * 4_000


def many_tables():
    return plain() + b"startxref\n" * 500_000 + b"%%EOF"


def locked():
    writer = PdfWriter()
    writer.add_blank_page(200, 200)
    writer.encrypt("secret", algorithm="RC4-128")
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


ALL = (
    plain, table_loop, tree_loop, deep_tree, wide_tree, unpacking_contents, packed_thrice,
    many_filters, million_objects, large_picture, slow_pictures, slow_contents, forms_in_a_circle,
    forms_by_the_billion, marks_of_marks, forms_in_a_row, wide_forms, nested, chain,
    letters_by_the_billion, many_words, run_lengths, lzw, ascii_85, jbig2, jbig2_in_a_circle, fax,
    unknown_filter, no_size, endless_size, no_numbers, turned_oddly, torn, empty, noise,
    many_tables, locked,
)  # fmt: skip
