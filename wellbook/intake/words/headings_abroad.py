"""Words over columns in Spanish, French and German. Words of the trade, from memory."""

import re

from wellbook.intake.words.roles import Role

# Words are without accents and in lower case; the first that fits decides.
_WORDS: tuple[tuple[Role, str], ...] = (
    (
        Role.NOTHING,
        (
            r"\b(v(alor(es)?)? (limite|lim|parametrico|guia)|limites? (legal|maximo|de calidad)"
            r"|cmp|norma|valeurs? (limite|guide|de reference)|(limite|reference)s? de qualite|norme"
            r"|grenzwerte?|richtwerte?|trinkwv|tvo|leitwert|incertitude|incertidumbre|(mess)?unsicherheit|precio|prix|preis)\b"
        ),
    ),
    (
        Role.REPORTING_LIMIT,
        r"\b(limite de cuantificacion|lc|limite de quantification|lq|best(immungs)? ?grenze|bg)\b",
    ),
    (
        Role.DETECTION_LIMIT,
        r"\b(limite de deteccion|ld|limite de detection|nachweisgrenze|ng)\b",
    ),
    (Role.SAMPLER, r"\b(muestreador|tomada? por|preleveur|preleve par|probenehmer(in)?)\b"),
    (Role.RECEIVED, r"\b(recepcion|recibid[ao]|recu le|reception|eingang|probeneingang)\b"),
    (
        Role.REPORTED,
        (
            r"\b(fecha (de|del) (informe|emision)|date d(u rapport|'edition)"
            r"|berichtsdatum|ausstellungsdatum)\b"
        ),
    ),
    (
        Role.ANALYSED,
        (
            r"\b(fecha (de|del) (analisis|ensayo)|date (d |de l )?analyses?"
            r"|(analysen?|pruf(ungs)?|untersuchungs|mess)datum|analysiert( am)?"
            r"|datum der (analysen?|untersuchung|prufung|messung))\b"
        ),
    ),
    (
        Role.TIME,
        (
            r"^(hora( de (la )?(muestra|muestreo|toma))?|heure( de prelevement)?"
            r"|uhrzeit|entnahmezeit)$"
        ),
    ),
    (
        Role.DATE,
        (
            r"\b(fecha (de )?(la )?(toma|muestreo|muestra|recogida"
            r"|recoleccion|colecta|extraccion)|date (de |du )?prelevement"
            r"|preleve le|probenahme(datum| am|tag)?|entnahme(datum| am)?|entnommen am"
            r"|erhebung(sdatum| am| vom)?|(wasser)?probe vom"
            r"|datum der (probenahme|entnahme)|muestreado|toma de muestra)\b"
            r"|^(muestreo|prelevement( du| le)?)$"
        ),
    ),
    (
        Role.POINT,
        (
            r"\b((punto|lugar|sitio) (de )?(la )?(toma|muestreo|muestra|recogida|recoleccion"
            r"|colecta|extraccion)|point (de )?prelevement"
            r"|lieu (de )?prelevement|(probenahme|entnahme)(stelle|ort)|messstelle)\b"
            r"|^(donde|lugar|ubicacion|sitio|punto|ou|lieu|endroit|emplacement)$"
        ),
    ),
    (Role.POINT, r"^(donde|lieu|ort|wo|ou)$"),
    (Role.CLIENT_NUMBER, r"^(muestra|echantillon)$"),
    (Role.WELL, r"^(pozo|sondeo|puits|forage|brunnen)$"),
    (Role.SOME_DATE, r"^(fecha|datum|tag|ano|annee|jahr|jour)$"),
    (
        Role.NUMBER,
        (
            r"\b(numero de muestra|n[o ]* de muestra|codigo de muestra|referencia"
            r"|numero d.?echantillon|n[o ]* d.?echantillon|proben?(nummer| ?nr)|labornummer"
            r"|labor ?nr|auftrags?(nummer| ?nr))\b"
        ),
    ),
    (
        Role.REPORT_NUMBER,
        (
            r"^(prufbericht(s?nummer|s? ?nr)?|rapport d.?(analyses?|essais?)"
            r"|informe de (ensayos?|analisis|resultados))$"
        ),
    ),
    (
        Role.KIND,
        (
            r"^((types?|nature|categorie) (d |de l |du |de |d e l )?(echantillon|prelevement)s?"
            r"|(tipo|clase) (de )?(la )?muestra|proben?(art|typ|kategorie)|(art|typ) der probe)$"
        ),
    ),
    (Role.MEDIUM, r"^(matriz|matrice|(proben)?matrix)( de (la )?muestra| de l echantillon)?$"),
    (Role.CLIENT_NUMBER, r"^(echantillon|muestra|probe)$"),
    (Role.LAB, r"^(laboratorio|laboratoire|labor|untersuchungsstelle)$"),
    (
        Role.METHOD,
        (
            r"^(metodo( de (analisis|ensayo))?|methode( d'?analyse)?|verfahren"
            r"|prufverfahren|untersuchungsverfahren|norm)$"
        ),
    ),
    (
        Role.BASIS,
        (
            r"^((expresad[oa]s?|expresion|calculad[oa]) como|(exprimee?s?|calculee?s?) en"
            r"|(angabe|angegeben|ausgedruckt|berechnet) als|base( de (calculo|expresion))?"
            r"|bezug(s(form|basis))?)$"
        ),
    ),
    (Role.UNIT, r"^(unidad(es)?|unites?|einheit(en)?|dim(ension)?)$"),
    (
        Role.RESULT,
        (
            r"^((su |votre |ihr |valor |valeur )?(resultados?|resultats?|ergebnis(se)?|messwerte?"
            r"|befund|wert|valor( medido| hallado)?|valeur( mesuree)?|analysenwert"
            r"|concentracion|concentration|konzentration|teneurs?|gehalt|contenido|messergebnis(se)?|untersuchungsergebnis(se)?))$"
        ),
    ),
    (
        Role.NAME,
        (
            r"^(parametros?|parametres?|ensayos?|determinacion(es)?|analitos?|analisis|sustancias?"
            r"|analyses?|essais?|elements?|substances?|untersuchung(en|sparameter)?|messgrossen?"
            r"|bezeichnung|stoff|kenngrossen?|prufparameter)$"
        ),
    ),
    (Role.NOTHING, r"^(lfd )?nr$"),
    (
        Role.QUALIFIER,
        r"^(kennz(eichen|eichnung|ung)?|indicateurs?|indicador(es)?|calificador(es)?)$",
    ),
    (Role.SIGN, r"^(signe|signo|vorzeichen|vz)$"),
    (
        Role.NOTE,
        r"^(observacion(es)?|notas?|remarques?|bemerkung(en)?|anmerkung(en)?|hinweise?|fussnoten?)$",
    ),
)
_PATTERNS = tuple((role, re.compile(pattern)) for role, pattern in _WORDS)


def role_abroad(words: str) -> Role | None:
    """What a heading in another language says; None if it says nothing there.

    Args:
        words: Its words without accents, in lower case.
    """
    return next((role for role, pattern in _PATTERNS if pattern.search(words)), None)
