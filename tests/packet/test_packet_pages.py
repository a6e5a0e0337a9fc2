"""What stands on the pages, read back by two independent readers: poppler and pypdf."""

import re
from datetime import date

import household
import pytest
from fontTools.ttLib import TTFont
from packet_fixtures import TODAY
from pypdf import PdfReader
from reading import pages_of

from wellbook.packet import packet
from wellbook.support import paths

AUDIENCES = ("buyer", "consultant")


def squeezed(text):
    return re.sub(r"\s+", " ", text)


def from_the_tests(text):
    """From the heading of the tests to the end, contents and running heads left behind."""
    return text[text.rindex("All tests in order") :]


@pytest.mark.parametrize("audience", AUDIENCES)
def test_every_reading_stands_in_the_packet_in_order_as_it_was_reported(
    packets, text_of, book, audience
):
    text = from_the_tests(squeezed(text_of(packets(audience), rows=True)))
    place = 0
    for number, drawn in enumerate(book.samples(with_struck=True), start=1):
        if drawn.struck:
            continue
        place = text.index(f"Test {number}: ", place)
        for one in book.results(sample=drawn.id):
            said = " ".join(filter(None, (one.reading.text, one.reading.unit, one.reading.basis)))
            place = text.index(f"{one.name} {said}", place)


def test_the_cover_counts_the_tests_and_says_what_was_struck_out(packets, text_of):
    cover = squeezed(text_of(packets(), rows=True))
    assert "Tests in the book 5 tests" in cover
    assert "4 tests with 15 readings: every test in the book that counts" in cover
    assert "Struck out 1 test" in cover
    assert "3 May 2004 to 2 May 2019" in cover


def test_the_cover_names_program_state_of_the_record_and_what_a_limit_is(packets, text_of, book):
    cover = squeezed(text_of(packets(), rows=True))
    assert book.digest() in cover
    assert "serve as yardsticks" in cover
    assert "can’t show that a lab’s figure is genuine" in cover


def test_arsenic_is_judged_by_the_limit_of_its_day_and_by_today_s(packets, text_of):
    # 0.05 mg/L until 22 January 2006, 0.010 mg/L since: 40 CFR 141.62(b) and 66 FR 6976.
    row = re.search(r"Arsenic\s+0\.030 mg/L.*", text_of(packets(), rows=True))
    assert re.search(r"within\s+◆ over", row.group())


def test_boil_advice_gives_way_where_bacteria_and_nitrate_are_both_outside(packets, text_of):
    # EPA advice to well owners: boiling concentrates nitrate.
    text = squeezed(text_of(packets()))
    assert "do not boil this water to drink it" in text
    assert "full rolling boil" not in text


def test_what_was_never_tested_is_listed(packets, text_of):
    text = squeezed(text_of(packets()))
    gaps = text[text.rindex("What was never tested") :]
    assert "Radon-222" in gaps
    assert "Solvents and fuel" in gaps


def test_a_struck_test_stays_visible_with_its_reason_but_is_judged_nowhere_else(packets, text_of):
    text = squeezed(text_of(packets()))
    assert "mixed up with a neighbour" in text
    assert text.index("77.7") > text.rindex("Corrections and struck tests")


def test_a_correction_shows_before_after_and_reason(packets, text_of):
    text = squeezed(text_of(packets(), rows=True))
    corrected = text[text.rindex("Corrections and struck tests") :]
    assert re.search(r"reading: 0\.42 reading: 0\.24 Digits were", corrected)


def test_a_lab_s_accreditation_is_held_against_the_sampling_days(packets, text_of):
    text = squeezed(text_of(packets(), rows=True))
    assert "not shown to be valid for test 1" in text


def test_every_link_leads_to_a_page_and_limits_to_their_sources(packets):
    reader = PdfReader(packets())
    said = dict(
        zip((p.indirect_reference.idnum for p in reader.pages), pages_of(packets()), strict=True)
    )
    led_to = [
        said[link["/Dest"][0].idnum]
        for page in reader.pages
        for link in (one.get_object() for one in page.get("/Annots", ()))
        if link["/Subtype"] == "/Link"
    ]
    assert len(led_to) > 40
    assert any("Limits used, with their sources" in text and "40 CFR" in text for text in led_to)


@pytest.mark.parametrize("audience", AUDIENCES)
def test_no_page_promises_that_water_is_safe(packets, text_of, audience):
    assert not re.search(r"\bsafe\b", text_of(packets(audience)), re.IGNORECASE)


@pytest.mark.parametrize("audience", AUDIENCES)
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_every_page_says_its_number_of_how_many(packets, audience, paper):
    reader = PdfReader(packets(audience, paper=paper))
    said = pages_of(packets(audience, paper=paper))
    first = next(n for n, words in enumerate(said) if "From here on everything is listed" in words)
    answers = [(str(n + 1), str(first)) for n in range(first)]
    last = len(said) - first
    record = [(f"A-{n}", f"A-{last}") for n in range(1, last + 1)]
    size = {"letter": (612, 792), "a4": (595, 842)}[paper]
    for page, words, (number, total) in zip(reader.pages, said, answers + record, strict=True):
        assert re.search(rf"Page {number} of\s+{total}\b", words)
        assert (round(page.mediabox.width), round(page.mediabox.height)) == size


def test_page_numbers_in_the_contents_are_those_of_the_sections(packets, text_of):
    pages = text_of(packets("consultant"), rows=True).split("\f")
    record = next(n for n, said in enumerate(pages) if "From here on everything is listed" in said)
    # Page one tells where the answers stand, the first page of the record the rest.
    contents = [said[said.index("Contents") :] for said in (pages[0], pages[record])]
    told = re.findall(r"([A-Z]\S*(?: \S+)*?) {2,}((?:A-)?\d+)\b", "\n".join(contents))
    assert len(told) > 15
    for title, page in told:
        place = record + int(page[2:]) if page.startswith("A-") else int(page)
        # A long title goes on in the next line of the contents.
        assert re.search(rf"^ *{re.escape(title)}", pages[place - 1], re.MULTILINE), title


def test_bookmarks_follow_the_sections_and_lead_to_their_pages(packets):
    reader, said = PdfReader(packets("consultant")), pages_of(packets("consultant"))
    titles = [entry.title for entry in reader.outline if not isinstance(entry, list)]
    assert titles[:5] == [
        "Sizing sheet",
        "What treatment fits the raw water",
        "Open questions",
        "Raw against treated water",
        "Main ions",
    ]
    assert titles.index("What needs attention") < titles.index("The record")
    assert titles.index("The record") < titles.index("Usual cautions") < titles.index("Charts")
    for entry in reader.outline:
        if not isinstance(entry, list):
            assert entry.title in said[reader.get_destination_page_number(entry)]


def test_title_and_language_are_set_for_readers_of_the_file(packets):
    reader = PdfReader(packets())
    assert reader.metadata.title == "Tamarack Hill: the history of its water"
    assert reader.trailer["/Root"]["/Lang"] == "en"
    assert reader.trailer["/Root"]["/ViewerPreferences"]["/DisplayDocTitle"]


@pytest.mark.parametrize("audience", AUDIENCES)
def test_every_font_is_embedded(packets, audience):
    fonts = set()

    def look(resources):
        resources = resources.get_object()
        for font in resources.get("/Font", {}).values():
            face = font.get_object()
            face = face.get("/DescendantFonts", [face])[0].get_object()
            descriptor = face["/FontDescriptor"].get_object()
            fonts.add(str(face["/BaseFont"]))
            assert "/FontFile2" in descriptor, face["/BaseFont"]
        for form in resources.get("/XObject", {}).values():
            if "/Resources" in form.get_object():
                look(form.get_object()["/Resources"])

    for page in PdfReader(packets(audience)).pages:
        look(page["/Resources"])
    assert {name.split("+")[1] for name in fonts} >= {"DejaVuSans", "DejaVuSans-Bold"}


def test_signs_of_the_trade_can_be_read_back(packets, text_of):
    text = text_of(packets())
    for sign in ("µg/L", "◆", "●", "–", "’", "·"):
        assert sign in text


@pytest.mark.parametrize("sign", "µ³₄≥≤±×°½◆◐●○⊡–’“”…·•−")
def test_both_fonts_have_a_glyph_for_every_sign_we_print(sign):
    for name in ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf"):
        assert ord(sign) in TTFont(paths.resources() / "fonts" / name).getBestCmap()


def test_a_consultant_gets_conversions_trends_indices_and_questions(packets, text_of):
    text = squeezed(text_of(packets("consultant"), rows=True))
    assert "31.9 mg/L as NO3 7.21 mg/L as N" in text  # 14.007 / 62.005 of it is nitrogen
    for title in ("Trends with their statistics", "Raw against treated water", "Indices"):
        assert title in text
    assert "Names that the program does not know, so not compared: Unobtainium" in text


def test_a_buyer_is_spared_the_technical_part(packets, text_of):
    assert "Trends with their statistics" not in text_of(packets())


def test_charts_are_drawn_as_text_and_lines_on_the_page_that_names_them(packets):
    reader = PdfReader(packets())
    page, said = next(
        (page, said) for page, said in zip(reader.pages, pages_of(packets()), strict=True)
        if "Nitrate: Pressure tank" in said
        and any("/Chart" in name for name in page["/Resources"].get("/XObject", {}))
    )  # fmt: skip
    assert "mg/L as N" in said
    assert not page.images


def test_the_last_day_counts_and_later_tests_are_told_but_left_out(
    book, catalogue, tmp_path, text_of
):
    path = tmp_path / "then.pdf"
    packet.write(
        book.record(), catalogue, path, packet.PacketOptions("buyer"), today=date(2012, 9, 12)
    )
    first = squeezed(text_of(path, rows=True))
    assert "2 tests with 8 readings; 2 later tests" in first


def test_a_private_event_is_not_even_hinted_at_by_its_kind(packets, text_of):
    assert (
        "pregnancy" not in from_the_tests(text_of(packets())).split("events")[-1].split("Labs")[0]
    )


def test_household_words_are_kept_as_they_are(packets, text_of):
    assert household.FORMULA in squeezed(text_of(packets()))


@pytest.fixture(scope="module")
def mineral_packets(catalogue, tmp_path_factory):
    """Packets of a book with a full mineral report and two halves of a sum."""
    folder = tmp_path_factory.mktemp("minerals")
    figures = {
        "calcium": "96", "magnesium": "28", "sodium": "12", "potassium": "2.0",
        "chloride": "22", "sulfate": "34", "alkalinity": "305", "nitrate": "6.2", "nitrite": "5.1",
    }  # fmt: skip
    with household.new_book(folder / "m.wellbook") as book:
        point = book.add_point(book.add_well("Marl Field"), "Pressure tank")
        known = catalogue.parameters
        rows = [
            household.result(key, known[key].name, figure, "mg/L", basis=known[key].basis)
            for key, figure in figures.items()
        ]
        for day in ("2020-05-03", "2024-05-03"):
            book.add_sample(household.sample(point, day, *rows))
        for audience in AUDIENCES:
            packet.write(
                book.record(),
                catalogue,
                folder / audience,
                packet.PacketOptions(audience),
                today=TODAY,
            )
    return folder


@pytest.mark.parametrize("audience", AUDIENCES)
def test_what_has_a_limit_on_its_sum_is_added_up_and_judged(mineral_packets, text_of, audience):
    # 6.2 + 5.1 mg/L as N is over the 10 mg/L of 40 CFR 141.62(b) though nitrate alone is not.
    text = squeezed(text_of(mineral_packets / audience, rows=True))
    assert "Nitrate + nitrite: 11.3 mg/L as N Pressure tank" in text
    assert re.search(r"Nitrate \+ nitrite 11\.3 mg/L as N 3 May 2024 ◆ over ◆ over \[\d+\]", text)
    said = "Nitrate + nitrite, Pressure tank: 11.3 mg/L as N on 3 May 2024. Over the limit."
    assert said in text
    assert "no result is over a limit for health" not in text


def test_a_consultant_gets_the_diagrams_of_the_main_ions_and_a_buyer_does_not(
    mineral_packets, text_of
):
    told = text_of(mineral_packets / "consultant")
    for word in ("Piper diagram", "HCO₃", "Stiff diagrams", "meq/L", "Test 2, 2024"):
        assert word in told
    assert "Piper" not in text_of(mineral_packets / "buyer")


def test_a_consultant_reads_what_serves_and_where_it_may_come_from_and_a_buyer_does_not(
    mineral_packets, text_of
):
    told = squeezed(text_of(mineral_packets / "consultant", rows=True))
    assert "What treatment fits the raw water" in told
    plain = squeezed(text_of(mineral_packets / "consultant"))
    assert "Usually serve: reverse osmosis, distillation, anion exchange." in plain
    assert "For reverse osmosis find out: Iron" in plain
    assert "Where salt and nitrate may come from" in told
    assert "Sodium to chloride is 0.841 by amount" in told  # (12 / 22.990) / (22 / 35.45)
    assert "What treatment fits" not in text_of(mineral_packets / "buyer")
