"""What the commands say can be said in another language: answers, help and faults."""

import json
import re
import string
from gettext import NullTranslations

import click
import pytest
from click.testing import CliRunner

from wellbook.cli import language as command_language
from wellbook.cli.main import cli
from wellbook.support.paths import resources, sample_wells
from wellbook.support.translation import ENGLISH, Language, use

WELL = str(sample_wells() / "alder-hollow.wellbook")
ON = ("--on", "2026-11-25")
PLACE = re.compile(r"\{[^{}]*\}|%\(\w+\)s")


class Loud(NullTranslations):
    """Every sentence in capitals, so that what nobody says is what is left in small letters."""

    def gettext(self, message):
        if not PLACE.search(message) or "%(" in message:
            return message if "%(" in message else message.upper()
        parts = string.Formatter().parse(message)
        return "".join(
            text.upper()
            + (
                ""
                if name is None
                else f"{{{name}{'!' if turned else ''}{turned or ''}{':' if how else ''}{how}}}"
            )
            for text, name, how, turned in parts
        )

    def pgettext(self, _context, message):
        return self.gettext(message)

    def ngettext(self, one, many, n):
        return self.gettext(one if n == 1 else many)

    def npgettext(self, _context, one, many, n):
        return self.ngettext(one, many, n)


@pytest.fixture(autouse=True)
def _the_environment_stays(monkeypatch):
    monkeypatch.setenv("LANGUAGE", "en")  # put back after each test, whatever a command set


@pytest.fixture
def loud(monkeypatch):
    """Commands speak the loud language, whatever they are asked for."""
    monkeypatch.setattr(command_language, "speak", lambda _key: use(Language("es", Loud())))
    yield lambda *words: CliRunner().invoke(cli, ["--language", "es", *map(str, words)])
    use(ENGLISH)


@pytest.fixture
def spanish():
    """The real program in Spanish."""
    yield lambda *words: CliRunner().invoke(cli, ["--language", "es", *map(str, words)])
    command_language.speak("en")


def texts_in(value):
    if isinstance(value, str):
        yield value
    elif isinstance(value, (dict, list)):
        for one in value.values() if isinstance(value, dict) else value:
            yield from texts_in(one)


def small_words(said):
    return set(re.findall(r"(?<![\w’'./-])[a-z’']*[a-z]{4,}[a-z’']*(?![\w./-])", said))


def facts(loud):
    """What the household, its labs and the rules wrote."""
    known = json.loads(loud("status", WELL, *ON, "--json").stdout)
    sources = " ".join(
        path.read_text(encoding="utf-8") for path in sorted(resources().glob("limits.csv"))
    )
    return set(re.findall(r"[a-z’']{4,}", " ".join(texts_in(known)) + sources)) | {"wellbook"}


@pytest.mark.parametrize(
    "words",
    [
        ("status", WELL, *ON),
        ("due", WELL, *ON),
        ("round", WELL, *ON),
        ("check", WELL, *ON),
        ("restore", WELL, WELL),
    ],
)
def test_answers_are_in_the_other_language(loud, words):
    answer = loud(*words)
    assert answer.exit_code in {0, 3}, answer.output
    assert sorted(small_words(answer.stdout) - facts(loud)) == []


@pytest.mark.parametrize("name", sorted(cli.commands))
def test_help_is_in_the_other_language(loud, name):
    command = cli.commands[name]
    own = {option for param in command.params for option in (*param.opts, param.name)}
    own |= {param.default for param in command.params if isinstance(param.default, str)}
    said = loud(name, "--help").stdout
    for param in command.params:
        kind = param.type
        for choice in kind.choices if isinstance(kind, click.Choice) else ():
            own.add(choice)
    body = said.split("\n", 1)[1]
    left = small_words(body) - {part for word in own for part in re.findall(r"[a-z]+", word)}
    # click asks gettext itself for its own words; the loud language is not compiled for it.
    assert left - {"default", "required", "options", "this", "message"} == set()


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("status", "nowhere.wellbook"), "nowhere.wellbook no existe"),
        (("stauts",), "No existe el comando 'stauts'"),
        (("status",), "Falta el argumento"),
        (("--help",), "Guarda el registro del pozo privado"),
        (("status", "--help"), "Muestra cada parámetro"),
        (("packet", "--help"), "Un expediente que omite análisis lo dice en su primera página"),
    ],
)
def test_faults_mistakes_and_help_are_in_spanish(spanish, words, part):
    assert part in " ".join(spanish(*words).output.split())


def test_the_facts_of_json_keep_their_keys(spanish):
    told = json.loads(spanish("status", WELL, *ON, "--json").stdout)
    english = json.loads(CliRunner().invoke(cli, ["status", WELL, *ON, "--json"]).stdout)

    def keys(value):
        if isinstance(value, dict):
            return {key: keys(one) for key, one in value.items()}
        return [keys(one) for one in value] if isinstance(value, list) else None

    assert keys(told) == keys(english)


def test_the_environment_chooses_where_nothing_is_said(monkeypatch):
    for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES"):
        monkeypatch.setenv(name, "")
    monkeypatch.setenv("LANG", "en_US.UTF-8")
    monkeypatch.setenv("WELLBOOK_LANGUAGE", "es")
    assert "Situación al 2026-11-25" in CliRunner().invoke(cli, ["status", WELL, *ON]).stdout
    monkeypatch.delenv("WELLBOOK_LANGUAGE")
    monkeypatch.setenv("LANGUAGE", "")
    assert "As of 2026-11-25" in CliRunner().invoke(cli, ["status", WELL, *ON]).stdout
    monkeypatch.setenv("LANG", "es_MX.UTF-8")
    monkeypatch.setenv("LANGUAGE", "")
    assert "Situación al 2026-11-25" in CliRunner().invoke(cli, ["status", WELL, *ON]).stdout
    command_language.speak("en")
