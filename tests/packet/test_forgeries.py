"""No forged packet is vouched for, and none is taken in.

Each forgery is tried as it is, and once more with code and seal made anew, as anybody can.
"""

import io
import re
import subprocess
import sys
import zlib

import forging
import household
import pikepdf
import pypdfium2
import pytest
from forging import (
    by_pikepdf,
    by_pypdf,
    catalogue,
    contents_of,
    drawn_over,
    got,
    in_form,
    pages,
    put,
)
from packet_fixtures import TODAY
from pypdf import PdfReader

from wellbook.packet import packet, words
from wellbook.packet.receive.receive import receive
from wellbook.packet.receive.verify import Outcome, stands, verify
from wellbook.pdf import own_form
from wellbook.pdf.sealing import LETTERS, OPEN_CODE, marks
from wellbook.pdf.spelling import Name, Reference, Stream
from wellbook.pdf.xmp import metadata
from wellbook.support.errors import Fault


@pytest.fixture
def other(packets):
    return packets()


BY_HAND = {}
IN_FORM = {}
BY_PROGRAMS = {
    "saved again by pikepdf": by_pikepdf,
    "saved again and linearised": lambda c: by_pikepdf(c, linearize=True),
    "saved again with packed objects": lambda c: by_pikepdf(
        c, object_stream_mode=pikepdf.ObjectStreamMode.generate
    ),
    "saved again with its streams packed anew": lambda c: by_pikepdf(c, recompress_flate=True),
    "saved again for reading with the eye": lambda c: by_pikepdf(c, qdf=True),
    "locked": lambda c: by_pikepdf(c, encryption=pikepdf.Encryption(owner="o", user="")),
    "locked with a word": lambda c: by_pikepdf(c, encryption=pikepdf.Encryption(user="word")),
    "a page taken out by pikepdf": lambda c: by_pikepdf(c, lambda d: d.pages.__delitem__(1)),
    "pages turned round by pikepdf": lambda c: by_pikepdf(c, lambda d: d.pages.reverse()),
    "a page put over the cover": lambda c: by_pikepdf(
        c, lambda d: d.pages[0].add_overlay(d.pages[1])
    ),
    "properties written by pikepdf": lambda c: by_pikepdf(
        c, lambda d: d.docinfo.__setitem__("/Title", "All clear")
    ),
    "saved again by pypdf": by_pypdf,
    "saved by pypdf as an update": lambda c: by_pypdf(c, forging.retitle, incremental=True),
    "a remark over the cover": lambda c: by_pypdf(c, forging.remark),
    "a remark as an update": lambda c: by_pypdf(c, forging.remark, incremental=True),
    "a script by pikepdf": lambda c: by_pikepdf(c, forging.scripted),
    "a file attached by pypdf": lambda c: by_pypdf(c, lambda w: w.add_attachment("a.txt", b"a")),
    "a bookmark by pypdf": lambda c: by_pypdf(
        c, lambda w: w.add_outline_item(title="All clear", page_number=0)
    ),
    "a blank page by pypdf": lambda c: by_pypdf(c, lambda w: w.add_blank_page(612, 792)),
}  # fmt: skip


def by_hand(change):
    BY_HAND[change.__name__.replace("_", " ")] = change
    return change


def inside(change):
    name = change.__name__.replace("_", " ")
    IN_FORM[name] = lambda content: in_form(content, change)
    return change


def before_table(content, part):
    place = content.rindex(b"endobj\nxref\n") + len(b"endobj\n")
    return content[:place] + part + content[place:]


def cover_contents(content):
    """Number of the object that draws the words of the first page."""
    objects, trailer = own_form.read(content)
    found = pages(objects, trailer)[1][0]["Contents"]
    return (found[-1] if isinstance(found, list) else found).number


def lying(content):
    number = cover_contents(content)
    return b"%d 0 obj\n<</Length %d>>\nstream\n%s\nendstream\nendobj\n" % (
        number, len(forging.LIE), forging.LIE,
    )  # fmt: skip


@by_hand
def letters_behind_the_end(content):
    return content + b"% more\n"


@by_hand
def a_single_blank_behind_the_end(content):
    return content + b" "


@by_hand
def an_update_behind_the_end(content):
    table = len(content) + len(lying(content))
    number = cover_contents(content)
    return content + lying(content) + (
        b"xref\n%d 1\n%010d 00000 n \ntrailer\n<</Root 1 0 R /Size 9999 /Prev %s>>\n"
        b"startxref\n%d\n%%%%EOF\n"
    ) % (number, len(content), re.findall(rb"startxref\n(\d+)", content)[-1], table)  # fmt: skip


@by_hand
def a_second_definition_and_padding_behind_the_end(content):
    return content + lying(content) + b" " * 2000


@by_hand
def a_second_definition_before_the_table(content):
    return before_table(content, lying(content))


@by_hand
def a_second_definition_at_the_beginning(content):
    return own_form.HEAD + lying(content) + content[len(own_form.HEAD) :]


@by_hand
def letters_before_the_head(content):
    return b"junk\n" + content


@by_hand
def another_version_in_the_head(content):
    return content.replace(b"%PDF-1.7", b"%PDF-1.4", 1)


@by_hand
def another_mark_of_the_form(content):
    return content.replace(b"packet, form 2", b"packet, form 1", 1)


@by_hand
def the_mark_of_the_form_taken_out(content):
    return content.replace(own_form.HEAD.splitlines(keepends=True)[2], b"", 1)


@by_hand
def a_remark_between_objects(content):
    return content.replace(b"endobj\n2 0 obj", b"endobj\n%c\n2 0 obj", 1)


@by_hand
def a_blank_inside_an_object(content):
    return content.replace(b"1 0 obj\n<<", b"1 0 obj\n<< ", 1)


@by_hand
def the_table_points_elsewhere(content):
    places = re.findall(rb"(\d{10}) 00000 n \n", content)
    return content.replace(places[4], places[9])


@by_hand
def the_table_with_other_line_ends(content):
    return content.replace(b" 00000 n \n", b" 00000 n\r\n")


@by_hand
def a_second_table(content):
    at = content.rindex(b"xref\n0 ")
    return before_table(content, content[at:])


@by_hand
def the_last_address_points_elsewhere(content):
    return re.sub(rb"startxref\n\d+", b"startxref\n17", content)


@by_hand
def a_second_last_address(content):
    return content.replace(b"\nstartxref\n", b"\nstartxref\n17\nstartxref\n")


@by_hand
def a_second_end(content):
    return content + b"%%EOF\n"


@by_hand
def twice_the_same_file(content):
    return content + content


@by_hand
def a_key_twice(content):
    return content.replace(b"/Type /Catalog", b"/Type /Catalog /Type /Catalog", 1)


@by_hand
def a_name_spelled_otherwise(content):
    return content.replace(b"/Type /Catalog", b"/Type /C#61talog", 1)


@by_hand
def a_string_spelled_otherwise(content):
    return content.replace(b"/Lang <656E>", b"/Lang (en)  ", 1)


@by_hand
def a_string_in_small_letters(content):
    return content.replace(b"/Lang <656E>", b"/Lang <656e>", 1)


@by_hand
def a_number_spelled_otherwise(content):
    return content.replace(b"/BBox [0 0 ", b"/BBox [0 +0 ", 1)


@by_hand
def another_edition_of_an_object(content):
    return content.replace(b"\n2 0 obj\n", b"\n2 1 obj\n", 1)


@by_hand
def the_length_of_a_stream_elsewhere(content):
    return re.sub(rb"/Length \d+>>\nstream", b"/Length 2 0 R>>\nstream", content, count=1)


@by_hand
def the_length_of_a_stream_too_small(content):
    return re.sub(rb"/Length (\d)(\d+)>>\nstream", rb"/Length 1\2>>\nstream", content, count=1)


@by_hand
def a_file_that_is_cut_off(content):
    return content[:-7]


@by_hand
def another_code_on_the_cover(content):
    code = marks(content).printed
    turned = code.translate(str.maketrans(LETTERS, LETTERS[1:] + LETTERS[0]))
    return content.replace(b"(" + code.encode() + b")", b"(" + turned.encode() + b")")


@by_hand
def a_byte_of_a_stream_turned(content):
    objects, _ = own_form.read(content)
    place = content.index(objects[cover_contents(content)].data)
    return content[: place + 40] + bytes([content[place + 40] ^ 1]) + content[place + 41 :]


@by_hand
def packed_objects(content):
    body = b"9000 0 <</S /JavaScript>>"
    part = b"%d 0 obj\n<</First 7 /Length %d /N 1 /Type /ObjStm>>\nstream\n%s\nendstream\nendobj\n"
    return before_table(content, part % (9001, len(body), body))


@by_hand
def a_table_as_a_stream(content):
    return before_table(
        content, b"9001 0 obj\n<</Length 0 /Type /XRef>>\nstream\n\nendstream\nendobj\n"
    )


@inside
def an_older_table_named(_objects, trailer):
    trailer["Prev"] = 17


@inside
def another_table_named(_objects, trailer):
    trailer["XRefStm"] = 17


@inside
def a_lock_named(_objects, trailer):
    trailer["Encrypt"] = {"Filter": Name("Standard"), "V": 1}


@inside
def a_script_at_opening(objects, trailer):
    action = {"S": Name("JavaScript"), "JS": b"app.alert('All clear')"}
    catalogue(objects, trailer)["OpenAction"] = action


@inside
def a_script_of_a_page(objects, trailer):
    action = {"S": Name("JavaScript"), "JS": b"app.alert('All clear')"}
    pages(objects, trailer)[1][0]["AA"] = {"O": action}


@inside
def a_script_by_name(objects, trailer):
    names = got(objects, catalogue(objects, trailer)["Names"])
    names["JavaScript"] = {"Names": [b"a", {"S": Name("JavaScript"), "JS": b"1"}]}


@inside
def a_form_to_fill_in(objects, trailer):
    field = {"FT": Name("Tx"), "T": b"a", "V": b"All clear"}
    catalogue(objects, trailer)["AcroForm"] = {"Fields": [field]}


@inside
def a_layer(objects, trailer):
    group = put(objects, {"Type": Name("OCG"), "Name": b"a"})
    catalogue(objects, trailer)["OCProperties"] = {"OCGs": [group], "D": {"OFF": [group]}}


@inside
def a_drawing_that_belongs_to_a_layer(objects, trailer):
    page = pages(objects, trailer)[1][0]
    forms = got(objects, got(objects, page["Resources"])["XObject"])
    drawing = next(one for key, one in forms.items() if key != "CheckCode")
    objects[drawing.number].facts["OC"] = {"Type": Name("OCG"), "Name": b"a"}


@inside
def a_remark_over_the_cover(objects, trailer):
    remark = {"Type": Name("Annot"), "Subtype": Name("FreeText"), "Rect": [60, 600, 500, 700],
              "Contents": b"All clear"}  # fmt: skip
    page = pages(objects, trailer)[1][0]
    page["Annots"] = [*got(objects, page.get("Annots", [])), remark]


@inside
def a_link_to_a_place_in_the_net(objects, trailer):
    action = {"S": Name("URI"), "URI": b"http://example.org"}
    link = {"Type": Name("Annot"), "Subtype": Name("Link"), "Rect": [0, 0, 9, 9], "A": action}
    page = pages(objects, trailer)[1][0]
    page["Annots"] = [*got(objects, page.get("Annots", [])), link]


@inside
def a_link_that_draws_something(objects, trailer):
    drawing = put(objects, Stream({"Type": Name("XObject"), "Subtype": Name("Form")}, forging.LIE))
    page = next(one for one in pages(objects, trailer)[1] if "Annots" in one)
    link = got(objects, got(objects, page["Annots"])[0])
    link["AP"] = {"N": drawing}


@inside
def a_hidden_page(objects, trailer):
    tree, _ = pages(objects, trailer)
    got(objects, tree["Kids"]).pop(1)
    tree["Count"] -= 1


@inside
def a_page_twice(objects, trailer):
    tree, _ = pages(objects, trailer)
    kids = got(objects, tree["Kids"])
    kids[1] = kids[0]


@inside
def a_page_more_than_counted(objects, trailer):
    pages(objects, trailer)[0]["Count"] -= 1


@inside
def pages_in_two_layers(objects, trailer):
    tree, _ = pages(objects, trailer)
    second = got(objects, tree["Kids"])[1]
    inner = put(objects, {"Type": Name("Pages"), "Kids": [second], "Count": 1})
    got(objects, pages(objects, trailer)[0]["Kids"])[1] = inner


@inside
def a_cover_that_is_cropped(objects, trailer):
    pages(objects, trailer)[1][0]["CropBox"] = [0, 0, 612, 300]


@inside
def a_cover_that_is_turned(objects, trailer):
    pages(objects, trailer)[1][0]["Rotate"] = 180


@inside
def a_cover_of_another_size(objects, trailer):
    pages(objects, trailer)[1][0]["MediaBox"] = [0, 400, 612, 792]


@inside
def a_cover_of_other_units(objects, trailer):
    pages(objects, trailer)[1][0]["UserUnit"] = 10


@inside
def sizes_that_are_inherited(objects, trailer):
    tree, found = pages(objects, trailer)
    tree["MediaBox"] = found[0].pop("MediaBox")


@inside
def names_of_pages(objects, trailer):
    labels = {"Nums": [0, {"S": Name("D"), "St": 2}]}
    catalogue(objects, trailer)["PageLabels"] = labels


@inside
def properties_in_a_second_place(objects, trailer):
    body = b"<x:xmpmeta xmlns:x='adobe:ns:meta/'>All clear</x:xmpmeta>"
    objects[catalogue(objects, trailer)["Metadata"].number].data = body


@inside
def properties_in_a_second_place_called_packed(objects, trailer):
    objects[catalogue(objects, trailer)["Metadata"].number].facts["Filter"] = Name("FlateDecode")


@inside
def a_title_that_its_second_place_does_not_know(objects, trailer):
    objects[trailer["Info"].number]["Title"] = b"All clear"


@inside
def a_file_that_is_called_what_it_is_not(objects, trailer):
    held(objects, trailer, b"results.csv")[0]["AFRelationship"] = Name("Alternative")


@inside
def a_property_of_another_name(objects, trailer):
    objects[trailer["Info"].number]["Verdict"] = b"All clear"


@inside
def a_bookmark_that_does_something(objects, trailer):
    top = got(objects, catalogue(objects, trailer)["Outlines"])
    mark = got(objects, top["First"])
    mark["A"] = {"S": Name("JavaScript"), "JS": b"1"}


@inside
def bookmarks_in_a_ring(objects, trailer):
    top = got(objects, catalogue(objects, trailer)["Outlines"])
    got(objects, top["First"])["Next"] = top["First"]


def listed(objects, trailer):
    names = got(objects, catalogue(objects, trailer)["Names"])
    return got(objects, got(objects, names["EmbeddedFiles"])["Names"])


def held(objects, trailer, name):
    found = listed(objects, trailer)
    file = got(objects, found[found.index(name) + 1])
    return file, got(objects, file["EF"])


def repacked(body):
    return Stream(
        {
            "Filter": Name("FlateDecode"),
            "Params": {"Size": len(body)},
            "Type": Name("EmbeddedFile"),
        },
        zlib.compress(body),
    )


@inside
def two_streams_behind_one_file(objects, trailer):
    more = put(objects, repacked(b"all clear"))
    held(objects, trailer, b"results.csv")[1]["UF"] = more


@inside
def two_names_of_one_file(objects, trailer):
    held(objects, trailer, b"results.csv")[0]["UF"] = b"other.csv"


@inside
def a_file_listed_under_another_name(objects, trailer):
    found = listed(objects, trailer)
    found[found.index(b"results.csv")] = b"results.csx"


@inside
def two_files_of_one_name(objects, trailer):
    more = forging.new_file(objects, b"results.csv", b"all clear")
    found = listed(objects, trailer)
    place = found.index(b"results.csv")
    found[place:place] = [b"results.csv", more]


@inside
def files_out_of_order(objects, trailer):
    found = listed(objects, trailer)
    found[:] = [*found[2:], *found[:2]]


@inside
def a_file_changed(objects, trailer):
    _, places = held(objects, trailer, b"results.csv")
    stream = objects[places["F"].number]
    forging.refill(stream, zlib.decompress(stream.data) + b"all clear")


@inside
def two_files_changed_round(objects, trailer):
    first = held(objects, trailer, b"results.csv")[1]
    second = held(objects, trailer, b"samples.csv")[1]
    first["F"], second["F"] = second["F"], first["F"]


@inside
def a_file_taken_out(objects, trailer):
    found = listed(objects, trailer)
    place = found.index(b"results.csv")
    del found[place : place + 2]
    forging.swept(objects, trailer)


@inside
def a_file_put_in(objects, trailer):
    more = forging.new_file(objects, b"zz.csv", b"all clear")
    listed(objects, trailer).extend([b"zz.csv", more])


@inside
def a_list_of_fingerprints_that_is_empty(objects, trailer):
    forging.refill(objects[held(objects, trailer, b"sha256.txt")[1]["F"].number], b"")


@inside
def a_stream_that_lies_elsewhere(objects, trailer):
    contents_of(objects, pages(objects, trailer)[1][1]).facts["F"] = b"other.pdf"


@inside
def a_stream_with_something_behind_it(objects, trailer):
    contents_of(objects, pages(objects, trailer)[1][1]).data += b"more"


@inside
def a_stream_called_by_another_packing(objects, trailer):
    contents_of(objects, pages(objects, trailer)[1][1]).facts["Filter"] = Name("ASCIIHexDecode")


@inside
def a_stream_packed_twice(objects, trailer):
    stream = contents_of(objects, pages(objects, trailer)[1][1])
    stream.facts["Filter"] = [Name("FlateDecode"), Name("FlateDecode")]
    stream.data = zlib.compress(stream.data)


@inside
def an_object_that_nothing_points_to(objects, _trailer):
    put(objects, Stream({}, forging.LIE))


@inside
def an_object_out_of_place(objects, _trailer):
    objects[3], objects[4] = objects[4], objects[3]


@inside
def the_code_drawn_a_second_time(objects, trailer):
    last = Reference(len(objects))
    page = pages(objects, trailer)[1][1]
    resources = got(objects, page["Resources"])
    resources["XObject"] = {**got(objects, resources.get("XObject", {})), "CheckCode": last}


@inside
def the_code_drawn_out_of_sight(objects, _trailer):
    objects[len(objects)].facts["Matrix"] = [1, 0, 0, 1, 900, 900]


@inside
def the_code_belongs_to_no_page(objects, trailer):
    page = pages(objects, trailer)[1][0]
    forms = got(objects, got(objects, page["Resources"])["XObject"])
    forms["Other"] = forms.pop("CheckCode")


@inside
def a_second_code_beside_the_code(objects, trailer):
    drawn_over(objects, pages(objects, trailer)[1][0],
               b"BT /F1+0 10 Tf 60 500 Td (7QK2-9M4D-XB0T-5R8W) Tj ET")  # fmt: skip


def run(*words, code=0):
    done = subprocess.run(
        [sys.executable, "-m", "wellbook", *map(str, words)],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == code, done.stderr + done.stdout
    assert "Traceback" not in done.stderr
    return done


FORGERIES = {**BY_PROGRAMS, **BY_HAND, **IN_FORM}


def test_there_are_forgeries_of_all_sorts():
    assert len(FORGERIES) >= 40


def assert_nobody_vouches(path):
    """It is neither vouched for nor taken in, as both go through one reading of the file."""
    assert not forging.is_vouched_for(path.read_bytes())


@pytest.mark.parametrize("name", FORGERIES)
def test_a_forgery_is_not_vouched_for_and_not_taken_in(small, tmp_path, name):
    content = small.read_bytes()
    forged = FORGERIES[name](content)
    assert forged != content
    # What is made anew can be the packet again, where only its code or its mark was changed.
    for number, made in enumerate({forged, forging.renewed(forged)} - {content}):
        path = tmp_path / f"{number}.pdf"
        path.write_bytes(made)
        assert_nobody_vouches(path)


@pytest.mark.parametrize("turned", [False, True])
def test_two_packets_in_one_file_are_none(small, other, tmp_path, turned):
    parts = [small.read_bytes(), other.read_bytes()]
    whole = b"".join(reversed(parts) if turned else parts)
    for number, made in enumerate((whole, forging.renewed(whole))):
        (tmp_path / f"{number}.pdf").write_bytes(made)
        assert_nobody_vouches(tmp_path / f"{number}.pdf")


AT_THE_DOOR = ("saved again by pypdf", "an update behind the end", "a script at opening")


@pytest.mark.parametrize("name", AT_THE_DOOR)
def test_what_is_no_file_of_ours_can_t_be_told_and_is_not_taken_in(small, tmp_path, name):
    path = tmp_path / "p.pdf"
    path.write_bytes(forging.renewed(FORGERIES[name](small.read_bytes())))
    done = run("verify", path, code=1)
    assert "ask for the original file" in done.stdout
    assert not re.search("every page|holds|agrees", done.stdout)
    assert (
        "ask for the original file" in run("receive", path, tmp_path / "n.wellbook", code=1).stderr
    )
    assert not (tmp_path / "n.wellbook").exists()


# What a forger does who knows all of this program; the first steps of it are caught above.


def a_cover_that_says_more(objects, trailer):
    drawn_over(objects, pages(objects, trailer)[1][0])


def pages_in_another_order(objects, trailer):
    kids = got(objects, pages(objects, trailer)[0]["Kids"])
    kids[1], kids[2] = kids[2], kids[1]


def letters_that_are_told_as_others(objects, trailer):
    page = pages(objects, trailer)[1][0]
    font = got(objects, next(iter(got(objects, got(objects, page["Resources"])["Font"]).values())))
    stream = objects[font["ToUnicode"].number]
    stream.data = zlib.compress(zlib.decompress(stream.data).replace(b"<0036>", b"<0031>"))


def another_title(objects, trailer):
    told = objects[trailer["Info"].number]
    told["Title"] = b"All clear"
    again = objects[catalogue(objects, trailer)["Metadata"].number]
    again.data = metadata({key: one for key, one in told.items() if isinstance(one, bytes)})


def another_bookmark(objects, trailer):
    top = got(objects, catalogue(objects, trailer)["Outlines"])
    got(objects, top["First"])["Title"] = b"All clear"


REMADE = (a_cover_that_says_more, pages_in_another_order, letters_that_are_told_as_others,
          another_title, another_bookmark)  # fmt: skip


@pytest.mark.parametrize("change", REMADE, ids=lambda change: change.__name__)
def test_a_file_that_was_remade_whole_is_never_said_to_hold(small, tmp_path, change):
    """Nothing in a file shows who made it; the code that the household tells does."""
    content = small.read_bytes()
    path = tmp_path / "half.pdf"
    for made in (in_form(content, change), forging.renewed(in_form(content, change))):
        path.write_bytes(made)
        assert_nobody_vouches(path)
    path = tmp_path / "whole.pdf"
    path.write_bytes(forging.remade(content, change))
    found = verify(path)
    assert {one.outcome for one in found} <= {Outcome.AGREES, Outcome.OPEN, Outcome.FAILS}
    assert "Whoever changes a file can work out a new one" in found[0].text
    told = verify(path, marks(content).code)
    assert not stands(told)
    assert "another file than the one the household speaks of" in told[0].text
    with pytest.raises(Fault, match="another file than the one"):
        receive(path, tmp_path / "new.wellbook", marks(content).code)


def test_only_the_code_that_was_told_makes_a_packet_hold(small):
    code = marks(small.read_bytes()).code
    for said in (code, code.lower(), code.replace("-", " "), f" {code} ".replace("0", "O")):
        found = verify(small, said)
        assert stands(found)
        assert [one.outcome for one in found].count(Outcome.HOLDS) == 1
    assert Outcome.HOLDS not in {one.outcome for one in verify(small)}
    assert stands(verify(small))


def squeezed(text):
    """Letters without what readers put between them."""
    return re.sub(r"[\s\ufffe\u00ad]|\x02", "", text)


def test_three_readers_see_on_every_page_the_words_that_the_packet_says_it_wrote(other):
    """pypdf, PDFium and poppler, which share no code, read what `words.txt` says."""
    files = {one.name: one.content.decode() for one in PdfReader(other).attachment_list}
    parts = re.split(r"^= .* = [0-9a-f]{64}$", files[words.NAME], flags=re.MULTILINE)
    code = marks(other.read_bytes()).code
    wrote = [squeezed(part.replace(OPEN_CODE, code)) for part in parts[1:-2]]
    ours = [squeezed(page.extract_text()) for page in PdfReader(other).pages]
    document = pypdfium2.PdfDocument(other)
    theirs = [squeezed(page.get_textpage().get_text_range()) for page in document]
    told = subprocess.run(["pdftotext", str(other), "-"], capture_output=True, check=True)
    third = [squeezed(one) for one in told.stdout.decode().split("\f")[:-1]]
    # The order in which a reader tells what stands side by side is its own.
    for seen in (ours, theirs, third):
        assert [sorted(one) for one in seen] == [sorted(one) for one in wrote]


def test_the_same_book_gives_the_same_bytes_in_the_one_form(small, catalogue, tmp_path):
    with household.with_one_test(tmp_path / "o.wellbook") as book:
        packet.write(
            book.record(), catalogue, tmp_path / "p.pdf", packet.PacketOptions("buyer"), today=TODAY
        )
    content = (tmp_path / "p.pdf").read_bytes()
    objects, trailer = own_form.read(content)
    seal = content[content.rindex(own_form.SEAL) + len(own_form.SEAL) :][: own_form.SEAL_LETTERS]
    assert own_form.written(objects, trailer, seal) == content
    assert own_form.read(small.read_bytes())[0].keys() == objects.keys()
    with pikepdf.open(io.BytesIO(content)) as document:
        assert document.check_pdf_syntax() == []
