"""What the commands say can be said in another language: answers, help and faults."""

import json
import re
import shutil
from pathlib import Path

import click
import pytest
from babel.messages.pofile import read_po
from click.testing import CliRunner
from loud import WORD, loud, unsaid_in, written_in
from pypdf import PdfReader

from wellbook.cli import language as command_language
from wellbook.cli.main import cli
from wellbook.support.paths import resources, sample_wells
from wellbook.support.translation import ENGLISH, use

WELL = str(sample_wells() / "alder-hollow.wellbook")
LAB_FILE = str(sample_wells() / "alder-hollow" / "to-add" / "ashgrove-26-3105.csv")
ON = ("--on", "2026-11-25")


@pytest.fixture(autouse=True)
def _the_environment_stays(monkeypatch):
    monkeypatch.setenv("LANGUAGE", "en")  # put back after each test, whatever a command set


@pytest.fixture
def loudly(monkeypatch):
    """Commands speak the loud language, whatever they are asked for."""
    monkeypatch.setattr(command_language, "speak", lambda _key: use(loud()))
    yield lambda *words: CliRunner().invoke(cli, ["--language", "es", *map(str, words)])
    use(ENGLISH)


@pytest.fixture
def spanish():
    """The real program in Spanish."""
    yield lambda *words: CliRunner().invoke(cli, ["--language", "es", *map(str, words)])
    command_language.speak("en")


def small_words(said):
    return set(re.findall(r"(?<![\w’'./-])[a-z’']*[a-z]{4,}[a-z’']*(?![\w./-])", said))


ANSWERS = {
    "status": ("status", WELL, *ON),
    "due": ("due", WELL, *ON),
    "round": ("round", WELL, *ON),
    "field sheet": ("round", WELL, *ON, "-o", "sheet.pdf"),
    "check": ("check", WELL),
    "add": ("add", "home.wellbook", LAB_FILE),
    "add and store": ("add", "home.wellbook", LAB_FILE, "--accept"),
    "packet": ("packet", WELL, "--for", "buyer", *ON, "-o", "history.pdf"),
    "verify": ("verify", "history.pdf"),
    "receive": ("receive", "history.pdf", "next.wellbook"),
    "restore": ("restore", WELL, WELL),
    "backup": ("backup", "home.wellbook", *ON),
    "postpone": (
        "postpone",
        "home.wellbook",
        "bacteria",
        *ON,
        "--until",
        "2026-12-20",
        "--because",
        "ill",
    ),
    "export": ("export", WELL, "-o", "tables"),
    "calendar": ("calendar", WELL, *ON, "-o", "water.ics"),
    "chart": ("chart", WELL, "nitrate", "-o", "nitrate.png"),
    "rescue": ("rescue", "home.wellbook", "saved.wellbook"),
}


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    """A folder with a household and its packet."""
    folder = tmp_path_factory.mktemp("desk")
    shutil.copyfile(WELL, folder / "home.wellbook")
    done = CliRunner().invoke(
        cli, ["packet", WELL, "--for", "buyer", *ON, "-o", str(folder / "history.pdf")]
    )
    assert done.exit_code == 0, done.output
    return folder


@pytest.mark.parametrize("what", ANSWERS)
def test_every_word_of_an_answer_belongs_to_a_sentence_or_to_the_household(
    loudly, desk, monkeypatch, what
):
    monkeypatch.chdir(desk)
    answer = loudly(*ANSWERS[what])
    assert answer.exit_code in {0, 3}, answer.output
    typed = {part for word in ANSWERS[what] for part in WORD.findall(str(word))}
    known = (
        written_in(WELL)
        | set(WORD.findall(Path(LAB_FILE).read_text()))
        | typed
        | set(WORD.findall(str(desk)))
        | {"wellbook", "pdf", "copies"}
    )
    assert unsaid_in(answer.output, known) == []


@pytest.mark.parametrize("name", sorted(cli.commands))
def test_help_is_in_the_other_language(loudly, name):
    command = cli.get_command(click.Context(cli), name)
    own = {option for param in command.params for option in (*param.opts, param.name)}
    own |= {param.default for param in command.params if isinstance(param.default, str)}
    own |= {param.metavar for param in command.params if param.metavar}
    own |= set(command.commands) if isinstance(command, click.Group) else set()
    said = loudly(name, "--help").stdout
    for param in command.params:
        kind = param.type
        for choice in kind.choices if isinstance(kind, click.Choice) else ():
            own.add(choice)
    body = said.split("\n", 1)[1]
    left = small_words(body) - {part for word in own for part in re.findall(r"[a-z]+", word)}
    # click asks gettext itself for its own words; the loud language is not compiled for it.
    assert left - {"default", "required", "options", "this", "message"} == set()


def commands_of(group):
    for name in group.list_commands(context := click.Context(group)):
        command = group.get_command(context, name)
        yield command
        if isinstance(command, click.Group):
            yield from commands_of(command)


def test_the_help_of_each_option_is_one_of_the_sentences_that_are_translated():
    with (resources() / "languages" / "es.po").open("rb") as file:
        held = {one.id for one in read_po(file, locale="es") if one.id}
    helps = {
        param.help
        for command in commands_of(cli)
        for param in command.params
        if isinstance(param, click.Option) and param.help
    }
    assert len(helps) > 100
    assert helps - held == set()


@pytest.mark.parametrize(
    ("words", "part"),
    [
        (("status", "nowhere.wellbook"), "nowhere.wellbook no existe"),
        (("stauts",), "No existe el comando 'stauts'"),
        (("status",), "Falta el argumento"),
        (("--help",), "Guarda el registro del pozo privado"),
        (
            ("settings", WELL),
            "ask: el departamento de salud de su condado o estado (según el lugar)",
        ),
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


def test_a_chart_is_drawn_with_the_names_of_its_language(spanish, tmp_path):
    """`Nitrato` and its limits’ set by their Spanish names, in the words of the picture."""
    picture = tmp_path / "nitrato.pdf"
    assert spanish("chart", WELL, "nitrate", "-o", str(picture), *ON).exit_code == 0
    words = " ".join(PdfReader(picture).pages[0].extract_text().split())
    assert "Nitrato" in words
    assert "primary drinking water rules" not in words
