"""What the languages of the program hold: each sentence of the source, whole, and no other."""

import importlib.util
import re
from functools import cache

import pytest
from babel.messages.pofile import read_po

from wellbook.support.paths import resources
from wellbook.support.translation import ENGLISH, LANGUAGES, offered
from wellbook.water.values.catalogue import read_catalogue

FOLDER = resources() / "languages"
OTHERS = sorted(set(LANGUAGES) - {ENGLISH.key})
PLACE = re.compile(r"\{[^{}]*\}|%\(\w+\)s")
FIGURE = re.compile(r"(?<![\w.])\d+(?:,\d{3})*(?:\.\d+)?(?!\w)")
COMMAND = re.compile(r"wellbook [a-z]+ |--[a-z-]+")
# The term of the glossary, and what also has its meaning and is not said: readers in Mexico and the
# United States, the words of NOM-127-SSA1-2021 where it has one. Common practice, no source.
ONE_TERM = {
    "solvente": r"disolvente",
    "frasco": r"botella",
    "grifo": r"\bllaves?\b",
    "soya": r"\bsoja\b",
    "plaguicida": r"pesticida",
    "abastecimiento público": r"suministros? (público|privado)",
    "pozo privado": r"(pozos?|abastecimientos?) particular",
    "nucleido": r"núclido",
    "UFC, NMP, UNT, UNF": r"\b(CFU|MPN|NTU|FNU)\b",
    "agua sin tratar": r"\bagua cruda\b",
    "agua superficial": r"agua de (la )?superficie",
    "aguas residuales": r"aguas negras",
    "fertilizante": r"\babonos?\b",
    "retrolavado": r"contralavado|contracorriente",
    "tanque de salmuera": r"depósito de salmuera",
    "fosa séptica, sistema séptico": r"tanque séptico|sistema de fosa",
    "cabeza del pozo": r"(boca|cabezal) del pozo",
    "revestimiento": r"\bademe|entubado",
    "surfactante": r"tensioactivo",
    "nivel de cribado": r"\bcriba\b",
    "código de verificación": r"código de (comprobación|control)",
    "límite de reporte": r"límite de notificación",
    "expediente, historial": r"\bhistoria (completa|como|en un PDF|\(menú)",
    "gráfico": r"\bgráficas?\b",
    "agregar": r"\bañad",
    "rescatar": r"\bsalv(ar|ado|a|e)\b",
    "computadora": r"\bordenador",
    "refrigerador": r"\bnevera",
    "sal de carretera": r"sal de caminos",
    "muestreo": r"\brondas?\b",
    "primera agua (tras reposo)": r"primer chorro",
    "registro de perforación": r"registro del pozo(?! privado)",
    "tomar fotos": r"\bha(cer|ga|gan) (una )?fotos?",
    "crear un libro": r"^Hace (BOOK|un libro)",
    "del, al": r"\b(de|a) el\b",
    "usted": r"\b(tú|vosotros|puedes|tienes|quieres|debes|tus?)\b",
}
# What the Spanish of a sentence must hold where the English has the term. The words of the
# agencies that write for private wells in Spanish (EPA, NOM-127); common practice, no source.
TRANSLATED = {
    r"well water": r"aguas? (de(l| un| nuestro)? )?pozo|agua de pozo",
    r"private wells?": r"pozos? privados?",
    r"raw water": r"sin tratar",
    r"samples?": r"muestra|muestreo|invent",
    r"sampling points?": r"puntos? de muestreo",
    r"field sheets?": r"hojas? de campo",
    r"first draws?": r"primera agua",
    r"labs?": r"laboratorio|^Lab$",
    r"accredited|accreditation": r"acredita",
    r"limit sets?": r"conjuntos? de límites",
    r"action levels?": r"nivel(es)? de acción",
    r"reporting limits?": r"límites? de reporte",
    r"detection limits?": r"límites? de detección",
    r"non-detects?": r"no detectad",
    r"trends?": r"tendencia",
    r"hardness": r"dureza",
    r"softeners?": r"ablandador",
    r"pressure tank": r"tanque de presión",
    r"wellhead": r"cabeza del? (un )?pozo",
    r"casing": r"revestimiento",
    r"well log": r"registro de perforación",
    r"aquifers?": r"acuífero",
    r"septic tanks?": r"fosas?",
    r"packets?": r"expediente",
    r"health department": r"departamentos? de (agricultura, y al de )?salud",
}


def gatherer():
    spec = importlib.util.spec_from_file_location("gather", FOLDER / "gather.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@cache
def sentences(language):
    with (FOLDER / f"{language}.po").open("rb") as file:
        return [one for one in read_po(file, locale=language) if one.id]


def forms(text):
    return [text] if isinstance(text, str) else list(text)


def pairs(language):
    """Each form of each translation with its English."""
    for one in sentences(language):
        english = forms(one.id)
        for number, said in enumerate(forms(one.string)):
            yield english[min(number, len(english) - 1)], said


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_of_the_source_is_translated_and_no_other(language):
    template = gatherer().gathered()
    wanted = {(one.context, str(one.id)) for one in template if one.id}
    held = sentences(language)
    assert {(one.context, str(one.id)) for one in held} == wanted
    assert [one.id for one in held if not all(forms(one.string))] == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_keeps_every_place_that_is_filled_in(language):
    wrong = [
        said
        for english, said in pairs(language)
        if sorted(PLACE.findall(said)) != sorted(PLACE.findall(english))
    ]
    assert wrong == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_key_in_a_menu_or_field_stays_one(language):
    key = re.compile(r"&\w")
    wrong = [
        said
        for english, said in pairs(language)
        if len(key.findall(said)) != len(key.findall(english))
    ]
    assert wrong == []


@pytest.mark.parametrize("language", OTHERS)
def test_sentences_end_and_spaces_stand_as_in_english(language):
    wrong = [
        said
        for english, said in pairs(language)
        if (english[:1] == " ", english[-1:] == " ") != (said[:1] == " ", said[-1:] == " ")
        or (" " in english and english.strip()[-1:] in ".…" and said.strip()[-1:] not in ".…")
    ]
    assert wrong == []


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_has_the_figures_of_the_english(language):
    lacking = [
        (figures, said)
        for english, said in pairs(language)
        if (figures := set(FIGURE.findall(PLACE.sub("", english))) - set(FIGURE.findall(said)))
    ]
    assert lacking == []


@pytest.mark.parametrize("language", OTHERS)
def test_what_a_sentence_quotes_of_the_window_is_called_as_it_stands_there(language):
    bare = str.maketrans("", "", "&…")
    called = {english.translate(bare): said.translate(bare) for english, said in pairs(language)}
    wrong = [
        (name, said)
        for english, said in pairs(language)
        for name in re.findall("“([^”{}]+?)[….,]?”", english)
        if called.get(name, "") not in said
    ]
    assert wrong == []


@pytest.mark.parametrize(("term", "another"), ONE_TERM.items())
def test_spanish_has_one_term_for_one_thing(term, another):
    wrong = re.compile(another, re.IGNORECASE)
    said = [
        said
        for _, said in pairs("es")
        if wrong.search(re.sub("agua embotellada|“[^”]*”", "", said))
    ]
    assert said == [], f"say {term}"


@pytest.mark.parametrize(("term", "spanish"), TRANSLATED.items())
def test_a_term_has_one_translation(term, spanish):
    asked, held = (
        re.compile(rf"\b({term})\b", re.IGNORECASE),
        re.compile(spanish, re.IGNORECASE),
    )
    wrong = [
        (english, said)
        for english, said in pairs("es")
        if asked.search(COMMAND.sub("", PLACE.sub("", english.replace("&", ""))))
        and not held.search(said.replace("&", ""))
    ]
    assert wrong == []


def test_an_english_sentence_has_curly_apostrophes_and_quotes():
    straight = re.compile(r"(?<=[A-Za-z])'(?=[a-z])|\"")
    assert [english for english, _ in pairs("es") if straight.search(english)] == []


def test_the_gatherer_looks_at_all_of_the_program():
    """A sentence of each part is among them: window, commands, faults, click, reference data."""
    ids = {one.id for one in gatherer().gathered() if isinstance(one.id, str)}
    assert {"&Settings…", "Make an empty book.", "{path} is {what}, not a file."} <= ids
    assert {"Missing argument", "Arsenic"} <= ids


@pytest.mark.parametrize("language", OTHERS)
def test_parameters_are_called_as_the_one_table_of_names_says(language):
    names = gatherer().names(language)
    with (FOLDER / f"{language}.po").open("rb") as file:
        said = read_po(file, locale=language)
    assert len(names) > 200
    assert {english: said[english].string for english in names} == names


@pytest.mark.parametrize("language", ["de", "fr"])
def test_one_file_begins_a_language_and_has_the_names_of_all_parameters_at_once(tmp_path, language):
    path = tmp_path / f"{language}.po"
    path.write_text(f'# {language}\nmsgid ""\nmsgstr ""\n', encoding="utf-8")
    gather = gatherer()
    begun = gather.updated(path, gather.gathered())
    named = gather.names(language)
    assert {name: begun[name].string for name in named} == named
    assert len(named) == len(read_catalogue(resources()).parameters)
    assert offered(tmp_path) == {"en": "English", language: language}
