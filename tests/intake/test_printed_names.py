"""Names with basis, fraction, draw and unit in them: common practice, no source."""

import csv

import pytest

from wellbook.intake.words.names import read_fraction, read_name
from wellbook.support.paths import resources


@pytest.mark.parametrize(
    ("printed", "key", "basis", "fraction", "draw", "unit"),
    [
        ("Nitrate as N", "nitrate", "as N", "", "", ""),
        ("Nitrate-N", "nitrate", "as N", "", "", ""),
        ("NO3-N (mg/L)", "nitrate", "as N", "", "", "mg/L"),
        ("Nitrate/Nitrite as N", "nitrate_nitrite", "as N", "", "", ""),
        ("Iron, Dissolved", "iron", "", "dissolved", "", ""),
        ("Total Iron (Fe)", "iron", "", "total", "", ""),
        ("Iron (Fe), Diss.", "iron", "", "dissolved", "", ""),
        ("Manganese, Total Recoverable", "manganese", "", "total", "", ""),
        ("Calcium, dissolved, mg/L", "calcium", "", "dissolved", "", "mg/L"),
        ("Lead - First Draw", "lead", "", "", "first draw", ""),
        ("Lead, 1st draw, total", "lead", "", "total", "first draw", ""),
        ("Copper, flushed", "copper", "", "", "flushed", ""),
        ("Hardness (mg/L CaCO3)", "hardness", "", "", "", "mg/L CaCO3"),
        ("Total Hardness as CaCO3", "hardness", "as CaCO3", "", "", ""),
        ("Turbidity (NTU)", "turbidity", "", "", "", "NTU"),
        ("Arsenic ppb", "arsenic", "", "", "", "ppb"),
        ("Turbidez UNT", "turbidity", "", "", "", "UNT"),
        ("Turbidez [UNF]", "turbidity", "", "", "", "UNF"),
        ("Turbidité néphélométrique (NFU)", "turbidity", "", "", "", "NFU"),
        ("Trübung FNU", "turbidity", "", "", "", "FNU"),
        ("Bactéries revivifiables à 22 °C", "heterotrophic_plate_count", "", "", "", ""),
        ("Bactéries aérobies revivifiables", "heterotrophic_plate_count", "", "", "", ""),
        ("Recuento de colonias a 22 °C", "heterotrophic_plate_count", "", "", "", ""),
        ("Recuento en placa", "heterotrophic_plate_count", "", "", "", ""),
        ("Colonias a 22 °C", "heterotrophic_plate_count", "", "", "", ""),
        ("Trihalometanos (suma)", "tthm", "", "", "", ""),
        ("Suma de trihalometanos", "tthm", "", "", "", ""),
        ("Total de plaguicidas", "pesticides_total", "", "", "", ""),
        ("Summe der Pestizide", "pesticides_total", "", "", "", ""),
        ("Colony count 22 °C/72h", "heterotrophic_plate_count", "", "", "", ""),
        ("Total Viable Count 22°C *", "heterotrophic_plate_count", "", "", "", ""),
        ("Conductivity- 20C", "conductivity", "", "", "", ""),
        ("Total dissolved solids @ 180°C", "tds", "", "", "", ""),
        ("Total Dissolved Solids, calculated from conductivity SM 2510", "tds", "", "", "", ""),
        ("Sulfate as SO4 - Turbidimetric", "sulfate", "as SO4", "", "", ""),
        ("Coliform Bacteria, Total SM 9222 B", "total_coliform", "", "", "", ""),
        ("Nitrite + Nitrate as N", "nitrate_nitrite", "as N", "", "", ""),
        ("Ammoniacal Nitrogen as N", "ammonia", "as N", "", "", ""),
        ("Recuento de Escherichia coli", "e_coli", "", "", "", ""),
        ("Recuento de bacterias coliformes", "total_coliform", "", "", "", ""),
        ("Coliforme Bakterien in 100 ml", "total_coliform", "", "", "", ""),
        ("Escherichia coli /100 ml - MF", "e_coli", "", "", "", ""),
        ("KBE bei 37 °C", "heterotrophic_plate_count", "", "", "", ""),
        ("Chloride¹", "chloride", "", "", "", ""),
    ],
)
def test_a_name_is_taken_apart(catalogue, printed, key, basis, fraction, draw, unit):
    name = read_name(printed, catalogue)
    assert name.parameter is not None
    assert (name.parameter.key, name.basis, name.fraction, name.draw, name.unit) == (
        key,
        basis,
        fraction,
        draw,
        unit,
    )


@pytest.mark.parametrize(
    "printed",
    [
        "Total Hardness",
        "Total Coliform",
        "Total Dissolved Solids (TDS)",
        "Alkalinity, Total",
        "Dissolved Oxygen",
        "Total Organic Carbon",
        "Phosphorus, Total",
    ],
)
def test_total_and_dissolved_are_no_fractions_where_they_are_part_of_the_name(catalogue, printed):
    name = read_name(printed, catalogue)
    assert name.parameter is not None
    assert name.fraction == ""


@pytest.mark.parametrize("printed", ["Copper (Cu)", "Fluoride (F)", "Potassium (K)", "Carbon (C)"])
def test_the_symbol_of_an_element_is_never_taken_for_a_unit(catalogue, printed):
    assert read_name(printed, catalogue).unit == ""


def test_a_cas_number_tells_what_a_strange_name_means(catalogue):
    # CAS Registry Number of arsenic.
    name = read_name("Metal X", catalogue, "7440-38-2")
    assert name.parameter is not None
    assert name.parameter.key == "arsenic"


@pytest.mark.parametrize(
    ("text", "fraction"),
    [
        # WQX domain list SampleFraction.
        ("Total", "total"),
        ("Dissolved", "dissolved"),
        ("Total Recoverable", "total"),
        ("Unfiltered, field", "total"),
        ("Filtered field and/or lab", "dissolved"),
        ("Filtered, lab", "dissolved"),
        ("None", ""),
        ("Suspended", None),
    ],
)
def test_fractions_of_the_open_exchange_format(text, fraction):
    assert read_fraction(text) == fraction


@pytest.mark.parametrize(
    ("key", "printed"),
    [
        # The names under which the French ministry of health publishes results of tap water.
        ("heterotrophic_plate_count", "Bact. aér. revivifiables à 22°-68h"),
        ("total_coliform", "Bactéries coliformes /100ml-MS"),
        ("enterococci", "Entérocoques /100ml-MS"),
        ("e_coli", "Escherichia coli /100ml - MF"),
        ("nitrate", "Nitrates (en NO3)"),
        ("ammonia", "Ammonium (en NH4)"),
        ("dichloroethylene_cis12", "Dichloroéthylène-1,2 cis"),
        ("trichlorobenzene_124", "Trichloro-1,2,4-benzène"),
        ("dibromochloromethane", "Chlorodibromométhane"),
        ("xylenes", "Xylènes (ortho+para+méta)"),
        ("vinyl_chloride", "Chlorure de vinyl monomère"),
        ("mcpa", "2,4-MCPA"),
        ("lindane", "HCH gamma (lindane)"),
        ("pfos", "Acide perfluorooctane sulfonique (PFOS)"),
        ("radon_222", "Activité Radon 222"),
        ("aluminum", "Aluminium total µg/l"),
        ("turbidity", "Turbidité néphélométrique NFU"),
        # Real Decreto 3/2023 of Spain, annex I, and the names on water reports under it.
        ("tce_pce_sum", "Suma 2 Tricloroeteno + Tetracloroeteno"),
        ("pahs_4", "Suma 4 Hidrocarburos Policíclicos Aromáticos (HPA)"),
        ("pesticides_total", "Suma total Plaguicidas"),
        ("pfhxs", "Ácido perfluorohexanosulfónico (PFHxS)"),
        ("gross_alpha", "Actividad alfa total"),
        # Oberflächengewässerverordnung of Germany, annex 8.
        ("dehp", "Bis(2-ethyl-hexyl)phthalat (DEHP)"),
    ],
)
def test_a_name_of_an_authority_abroad_is_known(catalogue, key, printed):
    parameter = read_name(printed, catalogue).parameter
    assert parameter is not None
    assert parameter.key == key


def names_of(language):
    with (resources() / "lab_names.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["language"] == language]
    return [(row, name.strip()) for row in rows for name in row["names"].split(";")]


@pytest.mark.parametrize("language", ["en", "de", "es", "fr"])
def test_each_name_of_each_language_is_read_as_its_parameter_and_no_other(catalogue, language):
    """Also in capitals, as many labs print, and with its unit behind it."""
    wrong = {}
    for row, name in names_of(language):
        behind = [] if "/" in name or name.endswith("µS)") else [f"{name} (mg/L)", f"{name}, mg/L"]
        for printed in (name, name.upper(), *behind):
            found = read_name(printed, catalogue)
            key = found.parameter.key if found.parameter else ""
            if key != row["parameter"] or row["basis"] not in ("", found.basis):
                wrong[printed] = (key, found.basis)
    assert wrong == {}


@pytest.mark.parametrize(("language", "least"), [("de", 150), ("es", 180), ("fr", 200)])
def test_most_parameters_are_called_as_a_published_text_calls_them(language, least):
    read = {row["parameter"] for row, _name in names_of(language) if ", read 20" in row["source"]}
    assert len(read) >= least


@pytest.mark.parametrize(
    ("printed", "key"),
    [
        ("Arsenic (III)", ""),
        ("Arsenic(V), mg/L", ""),
        ("Chromium (III)", ""),
        ("Chromium (VI)", "chromium_vi"),
        ("Chromium (+3)", ""),
        ("Vanadium (V)", "vanadium"),
        ("Iron (Fe)", "iron"),
    ],
)
def test_one_valence_of_an_element_is_not_the_whole_of_it(catalogue, printed, key):
    found = read_name(printed, catalogue).parameter
    assert (found.key if found else "") == key


# Common practice, no source.
NAMES_OF_LABS = {
    "total_coliform": "Coliforme Bakt.|Bactéries coliformes totales|Gesamtcoliforme|Col. totales",
    "enterococci": "Enterococos fecales|Streptocoques fécaux|Faecal streptococci",
    "heterotrophic_plate_count": "Colony Count 3 Days @ 22C|TVC 37C|Plate count 22C/72h"
    "|Aerobios mesófilos|Germes totaux à 22°C|Aerobe mesophile Keime|Keime 22°|Koloniezahl 36 Grad",
    "conductivity": "elektr. Leitfähigkeit (20°C)|C.E. 25 °C|Conductivité à 25°C",
    "ph": "pH strip|pH in situ|pH-Wert vor Ort|pH de campo|pH terrain|Valor de pH",
    "fluoride": "Flúor|Fluor",
    "tds": "SDT|Residuo seco a 180 ºC|Gelöste Feststoffe",
}


@pytest.mark.parametrize("key", sorted(NAMES_OF_LABS))
def test_short_forms_and_words_behind_a_name_are_known_in_each_language(key, catalogue):
    for name in NAMES_OF_LABS[key].split("|"):
        found = read_name(name, catalogue).parameter
        assert (name, found and found.key) == (name, key)


def test_ammonia_nitrogen_by_its_short_form_is_counted_as_nitrogen(catalogue):
    for name in ("N-NH3", "N-NH4", "Ammoniacal nitrogen"):
        found = read_name(name, catalogue)
        assert (found.parameter.key, found.basis) == ("ammonia", "as N")
