"""Words, figures and days of the files that are put together by lot.

The names are those of drinking-water rules and of the trade, from memory; the labs and households
are invented, the figures thrown by seeded dice.
"""

import random
import re
from dataclasses import dataclass, field, replace

from facts import Truth

# Key | English | Spanish | French | German | units with the greatest figure and its places.
_TABLE = """
nitrate|Nitrate as N;Nitrogen, Nitrate;NO3-N;Nitrate-N;Nitrate (as N);Nitrate Nitrogen|Nitrato;Nitratos|Nitrates;Nitrate|Nitrat|mg/L 12 2;ppm 12 1;mg/L as N 12 2;mg N/L 12 2
nitrite|Nitrite as N;Nitrogen, Nitrite;NO2-N;Nitrite-N|Nitrito;Nitritos|Nitrites|Nitrit|mg/L 1 3
iron|Iron;Iron, Total;Total Iron;Iron (Fe);Fe|Hierro;Hierro total|Fer;Fer total|Eisen;Eisen, gesamt|mg/L 4 2;ppm 4 2
manganese|Manganese;Manganese, Total;Manganese (Mn)|Manganeso|Manganèse;Manganèse total|Mangan|mg/L 1 3;µg/L 400 0
lead|Lead;Lead, Total;Lead (Pb);Total Lead|Plomo|Plomb|Blei|ug/L 20 1;ppb 20 1;mg/L 0.02 4
copper|Copper;Copper, Total;Copper (Cu)|Cobre|Cuivre|Kupfer|mg/L 2 3;ppm 2 2
arsenic|Arsenic;Arsenic, Total;Arsenic (As)|Arsénico|Arsenic|Arsen|ug/L 20 1;µg/L 20 1;mg/L 0.02 4
zinc|Zinc;Zinc, Total|Zinc;Cinc|Zinc|Zink|mg/L 3 2;MG/L 3 2
barium|Barium;Barium, Total|Bario|Baryum|Barium|mg/L 1 3;mg/l 1 3
boron|Boron|Boro|Bore|Bor|mg/L 2 2
aluminum|Aluminum|Aluminio|Aluminium;Aluminium total|Aluminium|mg/L 0.5 3
chloride|Chloride;Chloride (Cl)|Cloruro;Cloruros|Chlorures;Chlorure|Chlorid|mg/L 250 0;mg/L 90 1
sulfate|Sulfate;Sulfate (SO4);Sulphate|Sulfato;Sulfatos|Sulfates|Sulfat|mg/L 250 0;mg/L 90 1
fluoride|Fluoride|Fluoruro;Fluoruros|Fluorures|Fluorid|mg/L 3 2
sodium|Sodium;Sodium (Na);Sodium, Total|Sodio|Sodium|Natrium|mg/L 150 1
calcium|Calcium;Calcium, Total;Calcium (Ca)|Calcio|Calcium|Calcium|mg/L 120 1
magnesium|Magnesium;Magnesium (Mg)|Magnesio|Magnésium|Magnesium|mg/L 50 1
potassium|Potassium;Potassium (K)|Potasio|Potassium|Kalium|mg/L 20 1
hardness|Hardness, total (as CaCO3);Total Hardness;Hardness;Hardness as CaCO3|Dureza total;Dureza total como CaCO3|Dureté;Titre hydrotimétrique|Gesamthärte|mg/L 400 0;mg/L as CaCO3 400 0;mg/L CaCO3 400 0
alkalinity|Alkalinity, total (as CaCO3);Total Alkalinity;Alkalinity as CaCO3|Alcalinidad total;Alcalinidad|Alcalinité||mg/L 300 0
ph|pH;pH (lab);pH|pH|pH|pH-Wert|* 8 1;S.U. 8 2;pH units 8 1;std units 8 1
conductivity|Specific Conductance;Conductivity;Electrical Conductivity|Conductividad;Conductividad eléctrica|Conductivité;Conductivité à 25 °C|Leitfähigkeit;Elektrische Leitfähigkeit|µS/cm 900 0;umhos/cm 900 0;uS/cm 900 0
tds|Total Dissolved Solids;TDS;Solids, Total Dissolved|Sólidos disueltos totales|Résidu sec|Abdampfrückstand|mg/L 900 0
turbidity|Turbidity|Turbidez|Turbidité|Trübung|NTU 5 2
ammonia|Ammonia as N;Ammonia Nitrogen|Amonio|Ammonium|Ammonium|mg/L 1 2
uranium|Uranium;Uranium, Total|Uranio|Uranium|Uran|ug/L 30 1;µg/L 30 1
radon_222|Radon-222;Radon||Radon 222||pCi/L 4000 0
gross_alpha|Gross Alpha;Gross Alpha Activity||||pCi/L 15 1
selenium|Selenium|Selenio|Sélénium|Selen|ug/L 20 1
cadmium|Cadmium|Cadmio|Cadmium|Cadmium|ug/L 4 2
chromium|Chromium;Chromium, Total|Cromo;Cromo total|Chrome;Chrome total|Chrom|ug/L 30 1
nickel|Nickel|Níquel|Nickel|Nickel|ug/L 20 1
antimony|Antimony|Antimonio|Antimoine|Antimon|ug/L 6 1
pfoa|PFOA;Perfluorooctanoic acid (PFOA)|||PFOA|ng/L 12 1;ppt 12 1
pfos|PFOS;Perfluorooctanesulfonic acid (PFOS)|||PFOS|ng/L 12 1;ppt 12 1
mtbe|MTBE;Methyl tert-butyl ether (MTBE)||||ug/L 5 1
benzene|Benzene|Benceno|Benzène|Benzol|ug/L 3 1
atrazine|Atrazine|Atrazina|Atrazine|Atrazin|ug/L 2 2
?|Tungsten;Tin|Estaño|Étain|Zinn|ug/L 8 1
"""  # noqa: E501
_GERMS = """
total_coliform|Total Coliform;Total Coliforms;Coliform, Total;Total Coliform Bacteria|Coliformes totales|Coliformes totaux;Bactéries coliformes|Coliforme Bakterien
e_coli|E. coli;E. Coli;Escherichia coli|E. coli;Escherichia coli|Escherichia coli;E. coli|Escherichia coli;E. coli
enterococci|Enterococci|Enterococos|Entérocoques|Enterokokken
"""  # noqa: E501
_EVERY_DAY = ("nitrate", "iron", "manganese", "lead", "copper", "arsenic", "chloride", "sulfate",
              "hardness", "ph", "conductivity", "tds", "sodium", "turbidity",
              "fluoride")  # fmt: skip

HEADS = {
    "name": (("Analyte", "Parameter", "Test", "Contaminant", "Constituent", "Test Name"),
             ("Parámetro", "Determinación", "Analito"), ("Paramètre", "Analyse"),
             ("Parameter", "Untersuchung")),
    "result": (("Result", "Results", "Concentration", "Value", "Test Result", "Your Result",
                "Level Found"), ("Resultado", "Valor"), ("Résultat", "Valeur"),
               ("Ergebnis", "Messwert")),
    "unit": (("Units", "Unit", "UOM"), ("Unidad", "Unidades"), ("Unité", "Unités"),
             ("Einheit", "Dimension")),
    "limit": (("RL", "MRL", "PQL", "Reporting Limit", "Rep. Limit", "LOQ", "Detection Limit"),
              ("LC", "Límite de cuantificación", "LD"), ("LQ", "Limite de quantification"),
              ("BG", "Bestimmungsgrenze")),
    "standard": (("MCL", "EPA Limit", "Drinking Water Standard", "Max. Allowed", "Guideline"),
                 ("Valor paramétrico", "Límite máximo"), ("Limite de qualité", "Norme"),
                 ("Grenzwert", "Grenzwert TrinkwV")),
    "method": (("Method", "Test Method", "Analysis Method"), ("Método",), ("Méthode",),
               ("Verfahren", "Methode")),
    "qualifier": (("Qual", "Q", "Qualifier", "Flag"), ("Calif.",), ("Code",), ("Kennz.",)),
    "remark": (("Comment", "Notes", "Remarks", "Status"), ("Observaciones",), ("Remarques",),
               ("Bemerkung",)),
    "analysed": (("Analyzed", "Date Analyzed", "Analysis Date", "Tested"),
                 ("Fecha de análisis",), ("Date d'analyse",), ("Analysendatum",)),
    "analyst": (("Analyst", "By", "Tech"), ("Analista",), ("Opérateur",), ("Bearbeiter",)),
    "day": (("Date Collected", "Sample Date", "Collected", "Sampled", "Collection Date",
             "Date Sampled", "Date/Time Collected"),
            ("Fecha de muestreo", "Fecha de toma", "Fecha de toma de muestra"),
            ("Date de prélèvement", "Prélevé le", "Date du prélèvement"),
            ("Probenahme", "Datum der Probenahme", "Entnahmedatum")),
    "point": (("Sample Location", "Sampling Point", "Location", "Sample Site", "Collection Point",
               "Site"), ("Punto de muestreo", "Lugar de muestreo"),
              ("Point de prélèvement", "Lieu de prélèvement"),
              ("Entnahmestelle", "Probenahmestelle")),
    "number": (("Lab ID", "Sample ID", "Lab Sample ID", "Sample No.", "Lab No."),
               ("N.º de muestra", "Código de muestra"), ("N° échantillon", "Référence échantillon"),
               ("Probe-Nr.", "Labornummer")),
    "received": (("Date Received", "Received"), ("Fecha de recepción",), ("Reçu le",),
                 ("Probeneingang",)),
    "reported": (("Report Date", "Date Reported", "Reported"), ("Fecha de emisión",),
                 ("Édité le", "Date d'édition"), ("Berichtsdatum",)),
    "client": (("Client", "Customer", "Report To", "Submitted by"), ("Cliente",), ("Client",),
               ("Auftraggeber",)),
    "basis": (("Basis", "Expressed as", "Reported As"), ("Base",), ("Base",), ("Bezug",)),
    "matrix": (("Matrix", "Sample Type"), ("Matriz",), ("Matrice",), ("Matrix",)),
}  # fmt: skip
TITLES = (
    (
        "Certificate of Analysis",
        "Drinking Water Test Report",
        "Laboratory Report",
        "Analytical Results",
    ),
    ("Informe de ensayo", "Boletín de análisis"),
    ("Rapport d'analyse", "Bulletin d'analyse"),
    ("Prüfbericht", "Untersuchungsbericht"),
)
LABS = ("Tamarack Hollow Laboratory", "Pellworth Water Testing", "Sandle Creek Analytics",
        "Brindlewood Environmental Lab", "Laboratorio Valdehierro", "Laboratoire Courtemare",
        "Labor Hinterweiler")  # fmt: skip
STREETS = ("418 Ferncastle Road, Oldmere", "77 Quarry Bend, Nethering",
           "Calle del Pozo 12, Arrales", "3 chemin des Aulnes, Courtemare",
           "Mühlgasse 5, Hinterweiler")  # fmt: skip
PEOPLE = ("R. Thistlewood", "M. Harrowgate", "J. Pennifold", "A. Quesnay", "L. Oberhain")
POINTS = (("Kitchen tap", "Well head", "Pressure tank", "Outside spigot", "Bathroom sink", "Barn"),
          ("Grifo de cocina", "Pozo", "Depósito", "Grifo exterior"),
          ("Robinet cuisine", "Puits", "Ballon", "Robinet extérieur"),
          ("Küche", "Brunnen", "Druckkessel", "Außenhahn"))  # fmt: skip
REMARKS = (
    ("ND = not detected above the reporting limit", "Results relate only to the sample as received",
     "This report may not be reproduced except in full", "J = estimated value",
     "Questions? Call 555-0142", "Page 1 of 1", "Approved by: {person}, Laboratory Manager"),
    ("Los resultados se refieren solo a la muestra recibida", "n.d.: no detectado",
     "Prohibida la reproducción parcial", "Director técnico: {person}"),
    ("Les résultats ne concernent que l'échantillon reçu", "n.d. : non détecté",
     "Responsable du laboratoire : {person}"),
    ("Die Ergebnisse beziehen sich nur auf die untersuchte Probe", "n.n. = nicht nachweisbar",
     "Laborleitung: {person}"),
)  # fmt: skip
METHODS = {"Metals": "EPA 200.8", "Anions": "EPA 300.0", "General Chemistry": "SM 2320B",
           "Organics": "EPA 537.1", "Radiochemistry": "EPA 900.0",
           "Microbiology": "SM 9223B"}  # fmt: skip
MONTHS = (
    "January February March April May June July August September October November December",
    "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
    "janvier février mars avril mai juin juillet août septembre octobre novembre décembre",
    "Januar Februar März April Mai Juni Juli August September Oktober November Dezember",
)
_LONG = ("{m} {d}, {y}", "{d} de {m} de {y}", "{d} {m} {y}", "{d}. {m} {y}")
_NOT_FOUND = (("ND", "ND", "BDL", "Not Detected", "<", "< ", "<", "<", "ND (", "U"),
              ("n.d.", "<", "<", "< ", "No detectado"), ("n.d.", "<", "<", "< "),
              ("n.n.", "<", "<", "< "))  # fmt: skip
_GERM_WORDS = (
    (("Absent", "Present", ""), ("ABSENT", "PRESENT", "P/A"), ("Negative", "Positive", ""),
     ("<1", "9.7", "MPN/100 mL"), ("<1.0", ">2419.6", "MPN/100mL"), ("0", "4", "CFU/100 mL"),
     ("< 1", "12", "per 100 mL"), ("Not Detected", "Detected", "per 100 mL")),
    (("Ausencia", "Presencia", "/100 mL"), ("0", "3", "UFC/100 mL"), ("<1", "8", "NMP/100 mL")),
    (("Absence", "Présence", "/100 mL"), ("0", "2", "UFC/100 mL"), ("<1", "6", "n/(100mL)")),
    (("0", "5", "KBE/100 ml"), ("0", "1", "Anzahl/100 ml"), ("nicht nachweisbar", "nachweisbar",
                                                            "in 100 ml")),
)  # fmt: skip


@dataclass(frozen=True)
class Line:
    """One reading with all that a lab prints beside it."""

    key: str
    name: str
    text: str
    unit: str
    limit: str = ""
    standard: str = ""
    method: str = ""
    group: str = ""

    @property
    def basis(self) -> str:
        """As what it is counted, where the name leaves it open."""
        if self.key in {"hardness", "alkalinity"}:
            return "CaCO3"
        return {"nitrate": "N", "nitrite": "N", "ammonia": "N"}.get(self.key, "")


@dataclass
class Sample:
    """What was drawn on one day at one point; `day` may be a month or a year."""

    day: str
    point: str
    number: str
    hour: str = ""
    lines: list[Line] = field(default_factory=list)

    def truths(self, *, day: bool = True, point: bool = True) -> list[Truth]:
        return [
            Truth(r.key, r.text, r.unit, self.day if day else "", self.point if point else "")
            for r in self.lines
        ]


@dataclass
class Lot:
    """Dice of a layout (`shape`, the same in all its files) and of a file (`throw`)."""

    layout: str
    file: int
    language: int = 0
    shape: random.Random = field(init=False)
    throw: random.Random = field(init=False)

    def __post_init__(self) -> None:
        self.shape = random.Random(self.layout)
        self.throw = random.Random(f"{self.layout}/{self.file}")
        self.style = self.shape.randrange(5)
        self.not_found = self.shape.choice(_NOT_FOUND[self.language])
        self.germs = self.shape.choice(_GERM_WORDS[self.language])
        self.has_unit_case = self.language in {2, 3} and self.shape.random() < 0.5

    def odds(self, share: float) -> bool:
        """A choice of the layout."""
        return self.shape.random() < share

    def head(self, slot: str) -> str:
        return self.shape.choice(HEADS[slot][self.language])

    def one(self, words: tuple) -> str:
        return self.throw.choice(words[self.language])

    def day(self, first: int = 2012, last: int = 2025) -> str:
        throw = self.throw
        return f"{throw.randint(first, last)}-{throw.randint(1, 12):02}-{throw.randint(13, 28):02}"

    def days(self, n: int) -> list[str]:
        """Several years apart, in order."""
        years = sorted(self.throw.sample(range(2010, 2026), n))
        return [self.day(year, year) for year in years]

    def printed(self, day: str, *, hour: str = "", style: int | None = None) -> str:
        """A day in the layout's style; days are after the 12th: no slash is in doubt."""
        y, m, d = day.split("-")
        month = MONTHS[self.language].split()[int(m) - 1]
        words = (
            day,
            (f"{m}/{d}/{y}", f"{d}/{m}/{y}", f"{d}/{m}/{y}", f"{d}.{m}.{y}")[self.language],
            _LONG[self.language].format(y=y, m=month, d=int(d)),
            (f"{int(d)}-{month[:3]}-{y}", f"{d}-{m}-{y}", f"{d}.{m}.{y}", f"{d}.{m}.{y}")[
                self.language],
            (f"{int(m)}/{int(d)}/{y[2:]}", f"{d}/{m}/{y[2:]}", f"{d}/{m}/{y}",
             f"{int(d)}.{int(m)}.{y}")[self.language],
        )[self.style if style is None else style]  # fmt: skip
        return f"{words} {hour}".strip()

    def later(self, day: str, by: int) -> str:
        """Some days afterwards, for when a sample came in or was measured."""
        from datetime import date, timedelta

        return (date.fromisoformat(day) + timedelta(days=by)).isoformat()

    def comma(self, text: str) -> str:
        """Figures with a decimal comma outside of English."""
        return re.sub(r"(?<=\d)\.(?=\d)", ",", text) if self.language else text

    def sample(self, n: int = 10, *, like: "Sample | None" = None, day: str = "", point: str = "",
               germs: bool = True) -> Sample:  # fmt: skip
        """A new sample; `like` one of the same parameters, in the same order."""
        throw = self.throw
        number = f"{throw.choice('WDSLK')}{throw.randint(10, 25)}-{throw.randint(1000, 9999)}"
        hour = f"{throw.randint(7, 17):02}:{throw.randint(0, 59):02}"
        made = Sample(day or self.day(), point or self.one(POINTS), number, hour)
        if like:
            made.lines = [self.again(line) for line in like.lines]
        else:
            made.lines = self._panel(n, germs=germs)
        clean = self.comma(self.germs[0])
        if any(r.key == "total_coliform" and r.text == clean for r in made.lines):
            made.lines = [replace(r, text=clean) if r.key == "e_coli" else r for r in made.lines]
        return made

    def again(self, line: Line) -> Line:
        """The same parameter in another sample."""
        if line.group == "Microbiology":
            word = self.germs[1] if self.throw.random() < 0.2 else self.germs[0]
            return replace(line, text=self.comma(word))
        spec = next(s for s in _SPECS if s[0] == line.key and line.name in s[1][self.language])
        unit = next(u for u in spec[2] if self.unit(u[0]) == line.unit)
        return self._figure(line, unit)

    def unit(self, unit: str) -> str:
        return "" if unit == "*" else unit.replace("/L", "/l") if self.has_unit_case else unit

    def _panel(self, n: int, *, germs: bool) -> list[Line]:
        named = [s for s in _SPECS if s[1][self.language]]
        common = [s for s in named if s[0] in _EVERY_DAY]
        rare = [s for s in named if s[0] not in _EVERY_DAY and s[0] != "?"]
        throw = self.throw
        chosen = throw.sample(common, min(len(common), round(n * 0.65)))
        chosen += throw.sample(rare, n - len(chosen))
        if throw.random() < 0.1:
            chosen[-1] = named[-1]
        lines = []
        for key, names, units in sorted(chosen, key=_SPECS.index):
            unit = throw.choice(units) if not self.language else units[0]
            line = Line(key, throw.choice(names[self.language]), "", self.unit(unit[0]),
                        method=METHODS[_group(key)], group=_group(key))  # fmt: skip
            lines.append(self._figure(line, unit))
        for key, names, _ in _GERM_SPECS[:2] if germs else ():
            word = self.germs[1] if throw.random() < 0.2 else self.germs[0]
            lines.append(Line(key, throw.choice(names[self.language]), self.comma(word),
                              self.germs[2], "", self.comma(self.germs[0]), "SM 9223B",
                              "Microbiology"))  # fmt: skip
        return lines

    def _figure(self, line: Line, unit: tuple[str, float, int]) -> Line:
        _, most, places = unit
        throw = self.throw
        low = 6 if line.key == "ph" else most * 0.04
        value = f"{throw.uniform(low, most):.{places}f}"
        limit = self.comma(f"{10.0**-places * throw.choice((1, 2, 5)):.{places}f}")
        standard = "6.5-8.5" if line.key == "ph" else f"{most * 0.8:g}"
        if line.key not in {"ph", "conductivity", "hardness", "tds"} and throw.random() < 0.22:
            value = self._undetected(limit)
        elif not self.language and throw.random() < 0.04 and line.key != "ph":
            value += " J"  # an estimate
        elif not self.language and most >= 900 and float(value) >= 1000:
            value = f"{int(float(value)):,}"
        limit = "" if line.key == "ph" else limit
        return replace(line, text=self.comma(value), limit=limit, standard=self.comma(standard))

    def _undetected(self, limit: str) -> str:
        kind = self.not_found
        if kind.startswith("<"):
            return kind + limit
        if kind == "U" and not self.language:
            return f"{limit} U"
        return f"ND ({limit})" if kind == "ND (" else kind


def _group(key: str) -> str:
    if key in {"ph", "conductivity", "hardness", "alkalinity", "tds", "turbidity"}:
        return "General Chemistry"
    if key in {"nitrate", "nitrite", "chloride", "sulfate", "fluoride", "ammonia"}:
        return "Anions"
    if key in {"pfoa", "pfos", "mtbe", "benzene", "atrazine"}:
        return "Organics"
    return "Radiochemistry" if key in {"radon_222", "gross_alpha"} else "Metals"


def _read(table: str) -> list[tuple]:
    specs = []
    for row in table.strip().splitlines():
        key, *cells = row.split("|")
        names = tuple(tuple(filter(None, cell.split(";"))) for cell in cells[:4])
        units = [one.rsplit(" ", 2) for one in cells[4].split(";")] if len(cells) > 4 else []
        specs.append((key, names, [(u, float(most), int(places)) for u, most, places in units]))
    return specs


_SPECS = _read(_TABLE)
_GERM_SPECS = _read(_GERMS)
