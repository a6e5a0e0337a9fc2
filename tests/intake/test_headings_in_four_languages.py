"""Words over columns and before facts, whole families of them: common practice, no source."""

import pytest

from wellbook.intake.words.asides import EARLIER, LIMIT, UPKEEP, aside
from wellbook.intake.words.headings import role_of, role_of_column
from wellbook.intake.words.roles import Role

FAMILIES = {
    Role.DATE: """
        Date of draw|Sampled on|Date & time of collection|Collection date/time|When
        Fecha de recolección|Fecha y hora de muestreo|Fecha/hora de la toma|Fecha de captación
        Día de la toma|Tomada el|Muestra recogida el|Fecha de obtención de la muestra|Cuándo
        Date et heure de prélèvement|Date/heure du prélèvement|Date d'échantillonnage|Pris le
        Prélèvement effectué le|Échantillonné le|Jour du prélèvement|Prélevé(e) le|Quand
        Probennahmedatum|Probennahme am|Datum der Probennahme|Probe genommen am|Gezogen am
        Probeentnahme|Probenentnahmedatum|Beprobt am|Beprobungsdatum|Probenahmezeitpunkt
        Entnahmetag|Probedatum|Probe am|Erhoben am|Datum und Uhrzeit der Probenahme|Wann""",
    Role.POINT: """
        Where sampled|Spot|Sampling site
        Procedencia de la muestra|Ubicación de la muestra|Punto de captación|Localización del punto
        Lieu du prélèvement|Endroit du prélèvement|Lieu d'échantillonnage|Origine de l'échantillon
        Probennahmestelle|Messpunkt|Zapfstelle|Ort der Probenahme|Stelle der Entnahme|Probenort""",
    Role.NAME: """
        Determinand|Measurand|Analytical parameter
        Parámetros analizados|Característica|Componente|Contaminante|Prueba|Qué se midió
        Paramètre analysé|Libellé du paramètre|Désignation|Composé|Micro-organisme
        Untersuchte Parameter|Substanz|Prüfgröße|Merkmal|Stoffbezeichnung|Keim|Prüfmerkmal""",
    Role.RESULT: """
        Observed value|Detected level|How much
        Valor obtenido|Resultado del análisis|Resultado analítico|Lectura|Cuánto
        Résultat de l'analyse|Valeur trouvée|Résultat obtenu|Taux|Combien
        Resultate|Analysenergebnis|Prüfergebnis|Ist-Wert|Gemessener Wert|Befundwert|Menge""",
    Role.UNIT: """
        Measured in|Unidad de medida|Uds.|Unité de mesure|Unités d'expression|Maßeinheit|Einh.""",
    Role.RECEIVED: """
        Registered on|Fecha de entrada|Fecha de ingreso|Reçu au laboratoire le|Date d'arrivée
        Eingangsdatum|Probeneingangsdatum|Eingegangen am|Anlieferung|Probenannahme""",
    Role.REPORTED: """
        Fecha de reporte|Emitido el|Fecha de impresión|Fecha de firma|Date d'édition|Édité le
        Date d'émission|Date de validation|Datum des Prüfberichts|Ausgestellt am|Gedruckt am""",
    Role.ANALYSED: """
        Start of analysis|Inicio de análisis|Fecha de inicio de los ensayos|Analizado el
        Date de début d'analyse|Fin d'analyse|Date des essais|Prüfzeitraum|Untersuchungsbeginn
        Ende der Prüfung|Untersucht am|Gemessen am""",
    Role.SAMPLER: "Recogida por|Prélèvement effectué par|Probenahme durch|Entnommen von",
    Role.NOTE: "Comentarios|Commentaire|Observations|Kommentar|Notiz|Erläuterung",
}


@pytest.mark.parametrize("role", sorted(FAMILIES))
def test_words_of_a_family_mean_the_same_in_each_language(role):
    words = [one.strip() for one in FAMILIES[role].replace("\n", "|").split("|") if one.strip()]
    assert {word: role_of(word) for word in words} == dict.fromkeys(words, role)


LIMITS = (
    "Parametric value|Prescribed value|Objective|LMP|Valor máximo permitido|Límites permisibles"
    "|Límite admisible|Seuil|Exigence|Limites|Valeur maximale|Höchstwert|Höchstwert TBDV|Sollwert"
    "|Parameterwert|Indikatorparameterwert|Toleranzwert|Anforderung|Schwellenwert|Zielwert"
)
EARLIER_ONES = (
    "Previous result|Resultado anterior|Último análisis|Valor previo|Dernière analyse"
    "|Résultat précédent|Vorbefund|Vorwert|Vormessung|Letzter Wert"
)


@pytest.mark.parametrize("word", sorted(LIMITS.split("|")))
def test_a_limit_in_any_language_is_no_result(word):
    assert role_of_column(word) not in {None, Role.RESULT, Role.NAME}
    assert role_of(word) is Role.NOTHING or aside(word) == LIMIT


@pytest.mark.parametrize("word", sorted(EARLIER_ONES.split("|")))
def test_an_earlier_result_in_any_language_is_none_of_this_sample(word):
    assert aside(word) == EARLIER
    assert role_of_column(word) is not Role.RESULT


@pytest.mark.parametrize(
    "word", ["Coste (EUR)", "Facture réglée", "Kosten", "Precio", "Prix payé", "Quoted", "Rechnung"]
)
def test_money_is_no_result_in_any_language(word):
    assert aside(word) == UPKEEP
