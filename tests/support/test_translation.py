"""Sentences in another language: found by their English, in one thread, as long as it lasts."""

import threading

import pytest

from wellbook.support import translation

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
    return translation.read_tongue(tmp_path, "es")


def test_without_a_language_everything_is_english():
    assert translation.spoken() == "en"
    assert translation.say("{day} {month}", day=3, month="May") == "3 May"
    assert translation.count("{n:,} test", "{n:,} tests", 1) == "1 test"
    assert translation.count("{n:,} test", "{n:,} tests", 1200) == "1,200 tests"


def test_a_language_moves_what_a_sentence_is_about(other):
    with translation.speaking(other):
        assert translation.spoken() == "es"
        assert translation.say("{day} {month}", day=3, month="mayo") == "3 de mayo"
        assert translation.count("{n:,} test", "{n:,} tests", 1) == "1 prueba"
        assert translation.count("{n:,} test", "{n:,} tests", 0) == "0 pruebas"
        assert translation.say_as("season", "dry") == "seca"
        assert translation.say_as("event", "dry") == "seco"


def test_what_is_not_translated_stays_english(other):
    with translation.speaking(other):
        assert translation.say("Nobody translated {this}.", this="it") == "Nobody translated it."
        assert translation.say("dry") == "dry"
        assert translation.say("") == ""


def test_braces_of_a_household_are_no_places():
    assert translation.say("{not a place}") == "{not a place}"
    assert translation.say("note: {note}", note="{x}") == "note: {x}"


def test_it_ends_with_the_stretch_even_after_a_fault(other):
    with pytest.raises(ZeroDivisionError), translation.speaking(other):
        raise ZeroDivisionError
    assert translation.spoken() == "en"
    with translation.speaking(other):
        with translation.speaking(translation.ENGLISH):
            assert translation.spoken() == "en"
        assert translation.spoken() == "es"


def test_another_thread_does_not_hear_it(other):
    heard = []
    with translation.speaking(other):
        thread = threading.Thread(target=lambda: heard.append(translation.spoken()))
        thread.start()
        thread.join()
    assert heard == ["en"]


def test_english_needs_no_file_and_another_language_does(tmp_path):
    assert translation.read_tongue(tmp_path, "en") is translation.ENGLISH
    with pytest.raises(FileNotFoundError):
        translation.read_tongue(tmp_path, "es")
