"""Sentences in another language: found by their English, for the program or for a while."""

import threading

import pytest
from babel import Locale

from wellbook.support import translation as language
from wellbook.support.translation import LANGUAGES, N_, _, ngettext, npgettext, offered, pgettext

PO = """
msgid ""
msgstr ""
"Language: es\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\\n"

msgid "{day} {month}"
msgstr "{day} de {month}"

msgid "{n:,} test"
msgid_plural "{n:,} tests"
msgstr[0] "{n:,} prueba"
msgstr[1] "{n:,} pruebas"

msgctxt "season"
msgid "dry"
msgstr "seca"

msgctxt "event"
msgid "dry"
msgstr "seco"
"""


@pytest.fixture
def other(tmp_path):
    (tmp_path / "es.po").write_text(PO, encoding="utf-8")
    return language.read_language(tmp_path, "es")


@pytest.fixture
def program(other):
    language.use(other)
    yield other
    language.use(language.ENGLISH)


def counted(n):
    return ngettext("{n:,} test", "{n:,} tests", n).format(n=n)


def test_without_a_language_everything_is_english():
    assert language.current() == "en"
    assert _("{day} {month}").format(day=3, month="May") == "3 May"
    assert (counted(1), counted(1200)) == ("1 test", "1,200 tests")


def test_a_language_moves_what_a_sentence_is_about(other):
    with language.using(other):
        assert language.current() == "es"
        assert _("{day} {month}").format(day=3, month="mayo") == "3 de mayo"
        assert (counted(1), counted(0)) == ("1 prueba", "0 pruebas")
        assert pgettext("season", "dry") == "seca"
        assert pgettext("event", "dry") == "seco"
        assert npgettext("none", "{n} dry", "{n} dries", 2) == "{n} dries"


def test_what_is_not_translated_stays_english_and_nothing_stays_nothing(other):
    with language.using(other):
        assert _("Nobody translated {this}.").format(this="it") == "Nobody translated it."
        assert _("dry") == "dry"
        assert _("") == ""


def test_marked_text_is_translated_when_it_is_used(other):
    table = {"when": N_("{day} {month}")}
    with language.using(other):
        assert _(table["when"]) == "{day} de {month}"
    assert _(table["when"]) == "{day} {month}"


def test_a_stretch_ends_even_after_a_fault(other):
    with pytest.raises(ZeroDivisionError), language.using(other):
        raise ZeroDivisionError
    assert language.current() == "en"
    with language.using(other):
        with language.using(language.ENGLISH):
            assert language.current() == "en"
        assert language.current() == "es"


def heard_in_another_thread():
    heard = []
    thread = threading.Thread(target=lambda: heard.append(language.current()))
    thread.start()
    thread.join()
    return heard


def test_a_stretch_is_for_one_thread_and_the_program_for_all(other):
    with language.using(other):
        assert heard_in_another_thread() == ["en"]


@pytest.mark.usefixtures("program")
def test_the_language_of_the_program_is_that_of_every_thread_and_can_change():
    assert heard_in_another_thread() == ["es"]
    with language.using(language.ENGLISH):
        assert language.current() == "en"
    language.use(language.ENGLISH)
    assert heard_in_another_thread() == ["en"]


def test_english_needs_no_file_and_another_language_does(tmp_path):
    assert language.read_language(tmp_path, "en") is language.ENGLISH
    with pytest.raises(FileNotFoundError):
        language.read_language(tmp_path, "es")


def test_compiled_sentences_are_read_without_the_text_and_made_anew_when_it_changes(tmp_path):
    source = tmp_path / "es.po"
    source.write_text(PO, encoding="utf-8")
    language.read_language(tmp_path, "es")
    assert language.compiled_file(tmp_path, "es").is_file()
    source.write_text(PO.replace("seca", "árida"), encoding="utf-8")
    with language.using(language.read_language(tmp_path, "es")):
        assert pgettext("season", "dry") == "árida"
    source.unlink()
    with language.using(language.read_language(tmp_path, "es")):
        assert pgettext("season", "dry") == "árida"


def test_a_folder_that_cant_be_written_only_costs_time(tmp_path):
    (tmp_path / "es.po").write_text(PO, encoding="utf-8")
    (tmp_path / "es").write_text("a file where the folder would be", encoding="utf-8")
    with language.using(language.read_language(tmp_path, "es")):
        assert pgettext("season", "dry") == "seca"


@pytest.mark.parametrize(
    ("wanted", "key"),
    [
        (["es-MX", "en"], "es"),
        (["es_US.UTF-8"], "es"),
        (["de_DE", "es"], "es"),
        (["de"], "en"),
        (["C", "es"], "en"),
        ([], "en"),
    ],
)
def test_the_first_language_there_is_is_taken(wanted, key):
    assert language.preferred(wanted) == key


@pytest.mark.parametrize(
    ("names", "key"),
    [
        ({"LANG": "es_MX.UTF-8"}, "es"),
        ({"LANG": "es_MX.UTF-8", "LC_ALL": "C.UTF-8"}, "en"),
        ({"LANG": "en_US.UTF-8", "LANGUAGE": "es:en"}, "es"),
        ({}, "en"),
    ],
)
def test_the_environment_is_asked_as_gettext_asks_it(monkeypatch, names, key):
    for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        monkeypatch.delenv(name, raising=False)
    for name, value in names.items():
        monkeypatch.setenv(name, value)
    assert language.of_environment() == key


def test_a_language_is_offered_by_its_file_alone_under_the_name_at_its_head(tmp_path):
    (tmp_path / "pt.po").write_text('# Português\n# of nobody yet\nmsgid ""\n', encoding="utf-8")
    assert offered(tmp_path) == {"en": "English", "pt": "Português"}


def test_each_language_is_offered_under_the_name_that_it_gives_itself():
    # Unicode CLDR, as Babel carries it.
    for key, name in LANGUAGES.items():
        assert name.casefold() == (Locale(key).get_display_name(key) or "").casefold()
