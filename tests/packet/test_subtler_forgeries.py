"""Forgeries by somebody who read how packets are written: each keeps to the form as far as it can.

Each is sealed anew, as anybody can; the first of all is also tried at the door. That none is
vouched for is the packet's own promise; what each abuses is named in ISO 32000-1.
"""

import io
import zipfile
import zlib

import forging
import pytest
from forging import catalogue, contents_of, drawn_over, got, held_files, in_form, pages, put, refill

from wellbook.packet.receive.receive import receive
from wellbook.packet.receive.verify import stands, verify
from wellbook.pdf import own_form
from wellbook.pdf.sealing import OPEN_CODE, form_of, marks, sealed
from wellbook.pdf.spelling import Name, Stream
from wellbook.support.errors import Fault

IN_FORM, BY_HAND = {}, {}


def inside(change):
    IN_FORM[change.__name__.replace("_", " ")] = change
    return change


def by_hand(change):
    BY_HAND[change.__name__.replace("_", " ")] = change
    return change


def stream_of(objects, trailer, name):
    listed = held_files(objects, trailer)[1]
    return objects[got(objects, got(objects, listed[name])["EF"])["F"].number]


def file_of(objects, trailer, name="results.csv"):
    return got(objects, held_files(objects, trailer)[1][name])


def with_body(objects, trailer, name, change):
    stream = stream_of(objects, trailer, name)
    refill(stream, change(zlib.decompress(stream.data)))


def resources(objects, trailer, page=0):
    return got(objects, pages(objects, trailer)[1][page]["Resources"])


def font(objects, trailer):
    fonts = got(objects, resources(objects, trailer)["Font"])
    return got(objects, next(iter(fonts.values())))


def marks_of(objects, trailer):
    top = got(objects, catalogue(objects, trailer)["Outlines"])
    return top, got(objects, top["First"])


@inside
def the_drawing_of_the_code_draws_more(objects, _trailer):
    code = objects[len(objects)]
    code.facts["BBox"] = [-100, -700, 600, 200]
    code.data = forging.LIE.replace(b"F1+0", b"F1") + b" " + code.data


@inside
def the_drawing_of_the_code_has_another_box(objects, _trailer):
    objects[len(objects)].facts["BBox"] = [0, 0, 0, 0]


@inside
def the_code_is_set_in_other_letters(objects, _trailer):
    code = objects[len(objects)]
    fonts = got(objects, got(objects, code.facts["Resources"])["Font"])
    code.facts["Resources"] = {"Font": {"F1": {**got(objects, fonts["F1"]), "FirstChar": 1}}}


@inside
def the_code_is_set_too_small_to_be_read(objects, _trailer):
    code = objects[len(objects)]
    code.data = code.data.replace(b"/F1 1", b"/F1 0.1", 1)


@inside
def what_a_file_means_is_told_otherwise(objects, trailer):
    file_of(objects, trailer)["Desc"] = b"All clear"


@inside
def what_the_words_mean_is_told_otherwise(objects, trailer):
    file_of(objects, trailer, "words.txt")["Desc"] = b"All clear"


@inside
def a_table_is_called_a_web_page(objects, trailer):
    stream_of(objects, trailer, "results.csv").facts["Subtype"] = Name("text/html")


@inside
def a_file_belongs_to_the_pages_in_another_way(objects, trailer):
    file = file_of(objects, trailer)
    file["AFRelationship"] = Name("Source" if file["AFRelationship"] == "Data" else "Data")


@inside
def the_size_of_a_file_is_told_wrong(objects, trailer):
    stream_of(objects, trailer, "results.csv").facts["Params"]["Size"] = 3


@inside
def the_sum_of_a_file_is_told_wrong(objects, trailer):
    stream_of(objects, trailer, "results.csv").facts["Params"]["CheckSum"] = bytes(16)


@inside
def the_words_of_a_page_are_told_otherwise(objects, trailer):
    with_body(objects, trailer, "words.txt", lambda body: body.replace(b"never", b"often"))


@inside
def a_word_before_the_words(objects, trailer):
    with_body(objects, trailer, "words.txt", lambda body: b"All clear\n" + body)


@inside
def a_figure_changed_with_its_fingerprint(objects, trailer):
    held = stream_of(objects, trailer, "results.csv")
    old = zlib.decompress(held.data)
    new = old.replace(b"number", b"absent", 1) + b"\r\n"
    refill(held, new)
    hexes = [forging.hashlib.sha256(one).hexdigest().encode() for one in (old, new)]
    with_body(objects, trailer, "sha256.txt", lambda body: body.replace(*hexes))


@inside
def a_file_and_its_fingerprint_under_another_name(objects, trailer):
    listed = held_files(objects, trailer)[0]
    place = listed.index(b"samples.csv")
    file = got(objects, listed[place + 1])
    listed[place] = file["F"] = file["UF"] = b"samples.csw"
    change = (b"samples.csv", b"samples.csw")
    with_body(objects, trailer, "sha256.txt", lambda body: body.replace(*change))


@inside
def the_record_and_its_fingerprint_are_others(objects, trailer):
    held = stream_of(objects, trailer, "record.json")
    old = zlib.decompress(held.data)
    new = old.replace(b"Nitrate", b"Nothing")
    refill(held, new)
    hexes = [forging.hashlib.sha256(one).hexdigest().encode() for one in (old, new)]
    with_body(objects, trailer, "sha256.txt", lambda body: body.replace(*hexes))


@inside
def an_archive_among_the_files(objects, trailer):
    """A reader of ZIP looks for its end, so the same file is one to it."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr("all clear.txt", "all clear")
    listed = held_files(objects, trailer)[0]
    made = forging.new_file(objects, b"zz.zip", packed.getvalue())
    stream = objects[got(objects, made["EF"])["F"].number]
    stream.data, stream.facts = packed.getvalue(), {**stream.facts}
    del stream.facts["Filter"]
    listed.extend([b"zz.zip", made])


@inside
def letters_drawn_by_other_outlines(objects, trailer):
    held = got(objects, font(objects, trailer)["FontDescriptor"])["FontFile2"]
    stream = objects[held.number]
    body = bytearray(zlib.decompress(stream.data))
    body[len(body) // 2 :] = bytes(reversed(body[len(body) // 2 :]))
    stream.data = zlib.compress(bytes(body))


@inside
def letters_of_other_widths(objects, trailer):
    found = font(objects, trailer)
    found["Widths"] = [0 for _unused in got(objects, found["Widths"])]


@inside
def fonts_changed_round(objects, trailer):
    fonts = got(objects, resources(objects, trailer)["Font"])
    first, *_others, last = fonts
    fonts[first], fonts[last] = fonts[last], fonts[first]


@inside
def words_that_are_not_painted(objects, trailer):
    stream = contents_of(objects, pages(objects, trailer)[1][0])
    stream.data = zlib.compress(b"3 Tr " + zlib.decompress(stream.data))


@inside
def words_that_can_be_seen_through(objects, trailer):
    resources(objects, trailer)["ExtGState"] = {"G0": {"ca": 0}}
    stream = contents_of(objects, pages(objects, trailer)[1][0])
    stream.data = zlib.compress(b"/G0 gs " + zlib.decompress(stream.data))


@inside
def words_in_a_layer_that_nothing_names(objects, trailer):
    layer = put(objects, {"Type": Name("OCG"), "Name": b"draft"})
    resources(objects, trailer)["Properties"] = {"L0": layer}
    drawn_over(objects, pages(objects, trailer)[1][0],
               b"/OC /L0 BDC " + forging.LIE + b" EMC")  # fmt: skip


@inside
def a_white_sheet_over_the_cover(objects, trailer):
    drawn_over(objects, pages(objects, trailer)[1][0], b"1 g 0 0 612 792 re f")


@inside
def the_words_of_another_page(objects, trailer):
    found = pages(objects, trailer)[1]
    found[1]["Contents"] = found[2]["Contents"]


@inside
def the_same_words_packed_otherwise(objects, trailer):
    stream = contents_of(objects, pages(objects, trailer)[1][0])
    stream.data = zlib.compress(zlib.decompress(stream.data), 1)


@inside
def the_size_of_all_pages(objects, trailer):
    for page in pages(objects, trailer)[1]:
        page["MediaBox"] = [0, 400, 612, 792]


@inside
def a_link_that_leads_elsewhere(objects, trailer):
    found = pages(objects, trailer)[1]
    page = next(one for one in found if "Annots" in one)
    link = got(objects, got(objects, page["Annots"])[0])
    kids = got(objects, pages(objects, trailer)[0]["Kids"])
    target = got(objects, link["Dest"])
    target[0] = next(one for one in kids if one != target[0])


@inside
def a_field_to_fill_in_over_the_cover(objects, trailer):
    field = {"Type": Name("Annot"), "Subtype": Name("Widget"), "Rect": [0, 0, 600, 700],
             "FT": Name("Tx"), "T": b"a", "V": b"All clear"}  # fmt: skip
    pages(objects, trailer)[1][0]["Annots"] = [put(objects, field)]


@inside
def nothing_under_a_key(objects, trailer):
    pages(objects, trailer)[1][0]["AA"] = None


@inside
def a_group_that_blends_a_page(objects, trailer):
    group = {"S": Name("Transparency"), "CS": Name("DeviceRGB")}
    pages(objects, trailer)[1][0]["Group"] = group


@inside
def an_end_that_no_row_of_bookmarks_has(objects, trailer):
    top, first = marks_of(objects, trailer)
    top["Last"] = top["First"] if got(objects, top["Last"]) is not first else first["Next"]


@inside
def a_bookmark_that_leads_back_elsewhere(objects, trailer):
    _top, first = marks_of(objects, trailer)
    got(objects, first["Next"])["Prev"] = first["Next"]


@inside
def a_bookmark_under_another(objects, trailer):
    _top, first = marks_of(objects, trailer)
    first["Parent"] = first["Next"]


@inside
def shown_on_the_whole_screen(objects, trailer):
    catalogue(objects, trailer)["PageMode"] = Name("FullScreen")


@inside
def said_to_be_in_another_language(objects, trailer):
    catalogue(objects, trailer)["Lang"] = b"xx"


@inside
def a_table_beside_the_table(_objects, trailer):
    trailer["XRefStm"] = 15


@inside
def a_mark_of_another_edition(_objects, trailer):
    trailer["ID"] = [bytes(16), bytes(16)]


@inside
def objects_packed_in_one_that_is_reached(objects, trailer):
    facts = {"Type": Name("ObjStm"), "N": 1, "First": 4}
    resources(objects, trailer)["Properties"] = {"P": put(objects, Stream(facts, b"1 0 <<>>"))}


@inside
def an_update_hidden_in_a_stream(objects, trailer):
    hidden = b"1 0 obj\n<</Type /Catalog>>\nendobj\nstartxref\n9\n%%EOF\n"
    resources(objects, trailer)["Properties"] = {"P": put(objects, Stream({}, hidden))}


@by_hand
def the_end_points_into_a_stream(content):
    objects, trailer = own_form.read(content)
    an_update_hidden_in_a_stream(objects, trailer)
    made = own_form.written(objects, trailer, b"0" * own_form.SEAL_LETTERS)
    place = made.rindex(b"startxref\n")
    end = made.index(b"\n%%EOF", place)
    return made[:place] + b"startxref\n%d" % made.index(b"endobj\nstartxref") + made[end:]


@by_hand
def the_ends_of_all_lines_are_others(content):
    return content.replace(b"\n", b"\r\n")


@by_hand
def a_blank_at_the_end_of_a_line(content):
    return content.replace(b"\nendobj\n", b" \nendobj\n", 1)


@by_hand
def a_remark_between_seal_and_end(content):
    return content.replace(b"\nstartxref\n", b"\n% all clear\nstartxref\n")


@by_hand
def an_archive_behind_the_end(content):
    packed = io.BytesIO(content)
    with zipfile.ZipFile(packed, "a") as archive:
        archive.writestr("all clear.txt", "all clear")
    return packed.getvalue()


@by_hand
def an_archive_before_the_head(content):
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        archive.writestr("all clear.txt", "all clear")
    return packed.getvalue() + content


@by_hand
def a_form_with_a_nought_before_its_number(content):
    return content.replace(own_form.MARK + b"2", own_form.MARK + b"02", 1)


@by_hand
def a_form_that_was_never_written(content):
    return content.replace(own_form.MARK + b"2", own_form.MARK + b"0", 1)


@by_hand
def a_number_of_an_object_with_noughts(content):
    return content.replace(b"\n2 0 obj\n", b"\n02 0 obj\n", 1)


@by_hand
def a_table_with_a_free_place(content):
    place = content.rindex(b" 00000 n \n")
    return content[:place] + b" 00000 f \n" + content[place + 10 :]


@by_hand
def a_table_in_two_parts(content):
    objects = own_form.read(content)[0]
    size = len(objects) + 1
    return content.replace(b"xref\n0 %d\n" % size, b"xref\n0 1\n1 %d\n" % (size - 1), 1)


@by_hand
def pages_of_another_packet_put_in(content):
    half = content.index(b"\nendobj\n", len(content) // 2)
    return content[:half] + content[len(own_form.HEAD) :]


@by_hand
def the_code_open_as_if_never_made(content):
    return content.replace(b"(" + marks(content).code.encode(), b"(" + OPEN_CODE.encode())


def made_anew(content, name):
    """A forgery with code and seal made anew, and with the seal alone: the code is the old one."""
    if name in IN_FORM:
        forged = in_form(content, IN_FORM[name])
        objects, trailer = own_form.read(forged)
        assert own_form.written(objects, trailer, b"0" * 64) == forged, "it keeps to the form"
        return sealed(forged)
    return forging.renewed(BY_HAND[name](content))


@pytest.mark.parametrize("name", [*IN_FORM, *BY_HAND])
def test_a_subtler_forgery_is_vouched_for_by_nobody_and_taken_in_by_nobody(small, name):
    content = small.read_bytes()
    made = made_anew(content, name)
    assert made != content or name == "the code open as if never made"
    if made != content:
        assert not forging.is_vouched_for(made)


DOORS = ("the drawing of the code draws more", "what a file means is told otherwise",
         "the words of a page are told otherwise", "an archive behind the end")  # fmt: skip


@pytest.mark.parametrize("name", DOORS)
def test_at_the_door_it_is_the_same(small, tmp_path, name):
    path = tmp_path / "p.pdf"
    path.write_bytes(made_anew(small.read_bytes(), name))
    assert form_of(path.read_bytes()) == own_form.FORM
    assert not stands(verify(path))
    with pytest.raises(Fault):
        receive(path, tmp_path / "new.wellbook")
    assert not (tmp_path / "new.wellbook").exists()


def test_the_packet_itself_stands(small):
    assert stands(verify(small))
    assert forging.is_vouched_for(small.read_bytes())
