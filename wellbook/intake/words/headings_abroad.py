"""Words over columns in Spanish, French and German. Words of the trade, from memory."""

import re

from wellbook.intake.words.roles import Role

# Parts of the words below: to draw a sample, and a test, in each language.
_TOMA = r"(toma|muestreo|muestra|recogida|recoleccion|colecta|extraccion|captacion|obtencion)s?"
_TOMADA = r"(tomad|recogid|muestread|recolectad|colectad|extraid|captad)[ao]s?"
_PRISE = r"(prelevement|plv|prel|echantillonnage|collecte|prise( d essai| d echantillon)?)s?"
_NAHME = r"(proben?(ent)?nahme|entnahme|beprobung|proben?ziehung|erhebung)"
_ENSAYO = r"(analisis|ensayos?|determinacion(es)?)"
_ESSAI = r"(analyses?|essais?)"
_PRUFUNG = r"(analysen?|untersuchung(en)?|prufung(en)?|messung(en)?|bestimmung(en)?)"
_OF = r"de|del|du|des|d|l|la|los|las"
_DE = rf"(({_OF}) )*"

# Words are without accents and in lower case; the first that fits decides.
_WORDS: tuple[tuple[Role, str], ...] = (
    (
        Role.REPORTING_LIMIT,
        (
            r"\b(limites? (de )?cuantificacion|lc|l c|limites? (de )?quantification|lq|l q"
            r"|(best(immungs)?|quantifizierungs) ?grenze|bg)\b"
        ),
    ),
    (
        Role.DETECTION_LIMIT,
        r"\b(limites? (de )?deteccion|ld|l d|limites? (de )?detection|nachweis ?grenze|ng)\b",
    ),
    (
        Role.NOTHING,
        (
            r"\b(v(alor(es)?)? (limite|lim|parametrico|guia|maximo|admisible|permitido"
            r"|de referencia)"
            r"|limites? (legal|maximo|de calidad|permisible|permitido|admisible|reglement\w+"
            r"|et \w+)"
            r"|cmp|c m a|cma|lmp|l m p|norma|valeurs? (limite|guide|de reference|maxi\w*|seuil"
            r"|admissible)"
            r"|(limite|reference|critere)s? (ou reference )?de qualite|norme|exigences?|seuils?"
            r"|(grenz|richt|hochst|leit|ziel|soll|toleranz|schwellen|orientierungs|massnahmen?"
            r"|vorsorge"
            r"|indikator|parameter|indikatorparameter|referenz|anforderungs)werte?"
            r"|anforderung(en)?|trinkwv|tvo|tbdv|incertitude|incertidumbre|(mess)?unsicherheit"
            r"|cumple|cumplimiento|conformidad|conformite|conforme|dictamen|calificacion"
            r"|acreditad[ao]"
            r"|acreditacion|accreditation|accredite|akkr(editiert|editierung)?|beurteilung"
            r"|bewertung"
            r"|precio|coste?|importe|factura|prix|cout|montant|facture|preis|kosten|betrag"
            r"|rechnung)\b"
            r"|^(v p|vp|limites?|especificacion(es)?|specifications?|spezifikation(en)?"
            r"|criterios?|cofrac)$"
        ),
    ),
    (
        Role.SAMPLER,
        (
            r"\b(muestreador|(tomad|recogid|muestread|recolectad)[ao]s? por|preleveur"
            rf"|preleve(e|es|s)? par|{_PRISE} (effectue |realise )?par|probenehmer(in)?"
            rf"|{_NAHME} durch|(entnommen|gezogen) (durch|von))\b"
        ),
    ),
    (
        Role.RECEIVED,
        (
            r"\b(recepcion|recibid[ao]|(fecha|dia) (de )?(la )?(entrada|ingreso|llegada|registro)"
            r"|(entrada|ingreso|llegada) (en|al) (el )?laboratorio|recue?s? (le|au)|reception"
            r"|date (d )?(arrivee|enregistrement)|arrivee (au )?labo(ratoire)?"
            r"|(proben?|labor)?(eingang|anlieferung|einlieferung)(s?datum)?"
            r"|proben?annahme(datum)?"
            r"|datum des (proben?)?eingangs|eingegangen( am)?)\b"
        ),
    ),
    (
        Role.REPORTED,
        (
            rf"\bfecha {_DE}(informe|emision|reporte|entrega|impresion|expedicion|aprobacion"
            r"|validacion|certificado|firma|autorizacion)\b"
            r"|\b(emitid|impres|validad|aprobad|expedid)[ao] el\b"
            rf"|\bdate {_DE}(rapport|edition|emission|validation|envoi|diffusion|bulletin"
            rf"|impression"
            r"|signature|compte rendu|certificat)\b|\b(edite|emis|imprime|valide|envoye)e? le\b"
            r"|\b((pruf)?berichts?|ausstellungs?|druck|freigabe|befund|erstellungs?"
            r"|ausgabe)datum\b"
            r"|\bdatum de[rs] ((pruf)?berichte?s?|ausstellung|befunde?s?|freigabe|erstellung)\b"
            r"|\b(ausgestellt|erstellt|gedruckt|freigegeben) am\b"
        ),
    ),
    (
        Role.ANALYSED,
        (
            rf"\b(fechas?|periodo|inicio|comienzo|fin|final|finalizacion) ((y|e|inicio|fin"
            rf"|comienzo"
            rf"|final|finalizacion|realizacion|{_OF}) )*{_ENSAYO}\b"
            r"|\bfecha (de )?(inicio|fin|finalizacion)\b|\b(analizad|ensayad)[ao]s? el\b"
            rf"|\b(dates?|debut|fin|periode) ((et|debut|fin|mise|en|realisation"
            rf"|{_OF}) )*{_ESSAI}\b"
            r"|\banalysee?s? le\b"
            r"|\b(analysen?|pruf(ungs)?|untersuchungs|mess|bearbeitungs)"
            r"(datum|zeitraum|beginn|ende|tag)\b"
            rf"|\b(datum|beginn|ende|zeitraum|tag) der {_PRUFUNG}\b|\banalysiert( am)?\b"
            r"|\b(untersucht|gepruft|gemessen|bestimmt) am\b"
        ),
    ),
    (
        Role.TIME,
        (
            rf"^(hora( {_DE}{_TOMA})?|heure( {_DE}{_PRISE})?|(uhr)?zeit( (der )?{_NAHME})?"
            rf"|{_NAHME}(uhr)?zeit)$"
        ),
    ),
    (
        Role.POINT,
        rf"^(ort|stelle|punkt|herkunft|bezeichnung) (und \w+ )?de[rs] ({_NAHME}|(wasser)?probe)$",
    ),
    (
        Role.DATE,
        (
            rf"\b(fecha|dia|f)( y hora| hora)? {_DE}{_TOMA}\b|\b{_TOMADA} el\b"
            rf"|\b(date|jour)( et heure| heure)? {_DE}{_PRISE}\b"
            rf"|\b(preleve|echantillonne|pris|collecte)e?s? le\b|\b{_PRISE} (effectue "
            rf"|realise )?(le|du)$"
            rf"|\b{_NAHME}(s?datum|s?tag|s?zeitpunkt)?( am| vom)?\b"
            r"|\b(entnommen|gezogen|genommen|erhoben|beprobt)( am)?\b|\b(wasser)?probe (vom|am)\b"
            rf"|\b(datum|tag|zeitpunkt)( und uhrzeit| uhrzeit)? (der )?({_NAHME}|probe)\b"
            r"|\bproben?datum\b|\bmuestreado\b|\btoma de muestras?\b"
            r"|^(muestreo|prelevement|cuando|quand|wann)$"
        ),
    ),
    (
        Role.POINT,
        (
            rf"\b(punto|lugar|sitio|ubicacion|localizacion|procedencia|origen) {_DE}({_TOMA}"
            rf"|punto)\b"
            rf"|\b(point|lieu|endroit|site|emplacement|localisation|origine) {_DE}"
            rf"({_PRISE}|puisage|point|echantillon)\b"
            rf"|\b({_NAHME}|mess|zapf)(stelle|ort|punkt)\b|\bproben?(ort|stelle|herkunft)\b"
            r"|^(donde|lugar|ubicacion|localizacion|sitio|punto|ou|lieu|endroit|emplacement"
            r"|localisation"
            r"|ort|wo)$"
        ),
    ),
    (Role.WELL, r"^(pozo|sondeo|puits|forage|brunnen)$"),
    (
        Role.SOME_DATE,
        (
            r"^(fecha|dia|mes|ano|annee|jour|mois|datum|tag|monat|jahr)"
            r"( (dia|mes|ano|annee|jour|mois|datum|tag|monat|jahr))?$"
        ),
    ),
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
            r"|(tipo|clase|naturaleza|categoria) (de )?(la )?muestra|proben?(art|typ|kategorie)"
            r"|(art|typ) der probe)$"
        ),
    ),
    (Role.MEDIUM, r"^(matriz|matrice|(proben)?matrix)( de (la )?muestra| de l echantillon)?$"),
    (Role.CLIENT_NUMBER, r"^(echantillon|muestra|probe)$"),
    (Role.LAB, r"^(laboratorio|laboratoire|labor|untersuchungsstelle)$"),
    (
        Role.METHOD,
        (
            r"^(metodo( de (analisis|ensayo|prueba|medida))?|procedimiento( de ensayo)?"
            r"|tecnica( analitica)?"
            r"|methode( d (analyse|essai)| de mesure)?|technique( analytique)?"
            r"|(pruf|untersuchungs|mess|analysen?)?(verfahren|methode|vorschrift)|norm)$"
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
    (
        Role.UNIT,
        (
            r"^((unidad(es)?|unid|uds?)( (de )?(la )?(medida|expresion))?|u medida"
            r"|unites?( (de|d) (mesure|expression))?|(mass|mess)?einheit(en)?|einh|dim(ension)?)$"
        ),
    ),
    (
        Role.RESULT,
        (
            r"^((su )?(resultados?|lecturas?|hallazgos?|valor(es)?|concentracion(es)?"
            r"|contenidos?)"
            r"( (medid|hallad|obtenid|encontrad|determinad|detectad|analitic)[ao]s?"
            rf"| {_DE}({_ENSAYO}|muestra|laboratorio))?|cuanto|cantidad"
            r"|(votre |vos )?(resultats?|valeurs?|concentrations?|teneurs?|taux|releves?)"
            r"( (mesure|trouve|obtenu|releve|detecte|brut|analytique|constate)e?s?"
            rf"| {_DE}({_ESSAI}|mesures?|echantillon|laboratoire))?|combien|quantite"
            r"|(ihre? )?((ermittelte|gemessene|gefundene)[rs]? )?"
            r"((analysen?|mess|pruf|untersuchungs|labor|proben|ist|befund|zahlen)? ?"
            r"(ergebnis(se)?|werte?|befunde?)|resultate?|gehalte?|konzentration(en)?|menge"
            r"|gemessen"
            rf"|gefunden|ermittelt)( der ({_PRUFUNG}|probe))?|wie ?viel)$"
        ),
    ),
    (
        Role.NAME,
        (
            r"^(parametros?|ensayos?|determinacion(es)?|analitos?|analisis|sustancias?"
            r"|caracteristicas?"
            r"|componentes?|constituyentes?|contaminantes?|elementos?|compuestos?"
            r"|microorganismos?"
            r"|pruebas?|magnitud(es)?)"
            r"( (analizad|determinad|ensayad|analitic|investigad|medid|quimic)[ao]s?"
            r"| de ensayo)?$"
            r"|^(descripcion|denominacion|que( se (midio|analizo|busco))?)$"
            rf"|^((nom|libelle|designation|intitule) {_DE})?(parametres?|analyses?"
            rf"|determinations?|essais?"
            r"|elements?|substances?|composes?|caracteristiques?|germes?|micro ?organismes?"
            r"|molecules?)"
            r"( (analyse|mesure|recherche|determine|controle)e?s?)?$"
            r"|^(libelle|designation|intitule|denomination|quoi)$"
            r"|^((untersuchte|analysierte|gemessene)[rs]? )?(parameter|messgrossen?|stoffe?"
            r"|substanz(en)?"
            r"|analyte?n?|kenngrossen?|bestimmung(en)?|prufung(en)?|untersuchung(en)?|merkmale?"
            r"|komponenten?|inhaltsstoffe?|keime?|(pruf|mess|analysen?|untersuchungs)"
            r"(parameter|merkmale?|grossen?)|(parameter|stoff|substanz)(bezeichnung|name)"
            r"|bezeichnung|beschreibung|was( (gemessen|untersucht)( wurde)?)?)$"
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
        (
            r"^(observacion(es)?|notas?|comentarios?( del laboratorio)?|remarques?|commentaires?"
            r"|observations?|bemerkung(en)?|anmerkung(en)?|hinweise?|kommentare?|notiz(en)?"
            r"|erlauterung(en)?|fussnoten?)$"
        ),
    ),
)
_PATTERNS = tuple((role, re.compile(pattern)) for role, pattern in _WORDS)


def role_abroad(words: str) -> Role | None:
    """What a heading in another language says; None if it says nothing there.

    Args:
        words: Its words without accents, in lower case.
    """
    return next((role for role, pattern in _PATTERNS if pattern.search(words)), None)
