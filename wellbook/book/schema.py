"""The tables of a book, version by version.

A book is one SQLite file with STRICT tables. `APPLICATION_ID` stands in its header (bytes 68 to
71), `VERSION` in `user_version`. A released step is never edited; a change is a new step.
"""

APPLICATION_ID = 0x57424F4B  # the letters WBOK
VERSION = 2
# SHA-256 of the tables of a new book, see `opening.digest_of`; a test tells it anew.
TABLES_DIGEST = "fa256f2f6bc6606bacac62dfeadd1b8c6b752766d7cbf01f4b8e889981270df8"

_DAY = "{0} = '' OR {0} GLOB '[12][0-9][0-9][0-9]*'"
# '+0 days' makes SQLite work the date out; without it 30 February passes.
_MOMENT = "date(substr({0}, 1, 10), '+0 days') IS substr({0}, 1, 10)"

_AMOUNT = "{0} = '' OR ({0} GLOB '[0-9]*' AND {0} NOT GLOB '*[^0-9.]*')"
_CURRENCY = "{0} = '' OR {0} GLOB '[A-Z][A-Z][A-Z]'"  # ISO 4217
_USE = "{0} = '' OR ({0} GLOB '[0-9]*[lLh³]' AND length({0}) <= 24)"  # 1000 gal, 9000 h
_COST = f"""
ALTER TABLE {{0}} ADD COLUMN cost TEXT NOT NULL DEFAULT '' CHECK ({_AMOUNT.format("cost")});
ALTER TABLE {{0}} ADD COLUMN currency TEXT NOT NULL DEFAULT ''
    CHECK ((currency = '') = (cost = '') AND ({_CURRENCY.format("currency")}));
"""

STEPS: dict[int, str] = {
    1: f"""
CREATE TABLE setting (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    key TEXT NOT NULL UNIQUE,
    value TEXT NOT NULL
) STRICT;
CREATE TABLE well (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE CHECK (length(name) BETWEEN 1 AND 200),
    note TEXT NOT NULL DEFAULT '',
    address TEXT NOT NULL DEFAULT '',
    coordinates TEXT NOT NULL DEFAULT '',
    replaces INTEGER REFERENCES well (id)
) STRICT;
CREATE TABLE construction (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    well INTEGER NOT NULL REFERENCES well (id),
    item TEXT NOT NULL CHECK (length(item) BETWEEN 1 AND 100),
    text TEXT NOT NULL,
    UNIQUE (well, item)
) STRICT;
CREATE TABLE point (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    well INTEGER NOT NULL REFERENCES well (id),
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
    treated INTEGER NOT NULL DEFAULT 0 CHECK (treated IN (0, 1)),
    place INTEGER NOT NULL DEFAULT 1 CHECK (place BETWEEN 0 AND 99),
    note TEXT NOT NULL DEFAULT '',
    UNIQUE (well, name)
) STRICT;
CREATE TABLE treatment_unit (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    well INTEGER NOT NULL REFERENCES well (id),
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
    kind TEXT NOT NULL DEFAULT '',
    place INTEGER NOT NULL DEFAULT 1 CHECK (place BETWEEN 0 AND 99),
    installed TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("installed")}),
    removed TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("removed")}),
    target TEXT NOT NULL DEFAULT '',
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE TABLE service (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    unit INTEGER NOT NULL REFERENCES treatment_unit (id),
    day TEXT NOT NULL CHECK ({_DAY.format("day")}),
    until TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("until")}),
    kind TEXT NOT NULL CHECK (length(kind) BETWEEN 1 AND 100),
    text TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE TABLE lab (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE CHECK (length(name) BETWEEN 1 AND 200),
    accreditation TEXT NOT NULL DEFAULT '',
    valid_from TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("valid_from")}),
    valid_to TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("valid_to")}),
    note TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE TABLE sample (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    point INTEGER NOT NULL REFERENCES point (id),
    collected TEXT NOT NULL CHECK ({_MOMENT.format("collected")}),
    lab INTEGER REFERENCES lab (id),
    lab_number TEXT NOT NULL DEFAULT '',
    dispatched TEXT NOT NULL DEFAULT '' CHECK (dispatched = '' OR {_MOMENT.format("dispatched")}),
    received TEXT NOT NULL DEFAULT '' CHECK (received = '' OR {_MOMENT.format("received")}),
    reported TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("reported")}),
    purpose TEXT NOT NULL DEFAULT '',
    sampler TEXT NOT NULL DEFAULT '',
    standing TEXT NOT NULL DEFAULT '',
    draw TEXT NOT NULL DEFAULT '',
    temperature TEXT NOT NULL DEFAULT '',
    rain TEXT NOT NULL DEFAULT '',
    note TEXT NOT NULL DEFAULT '',
    struck TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX sample_by_point ON sample (point, collected);
CREATE TABLE result (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    sample INTEGER NOT NULL REFERENCES sample (id),
    parameter TEXT NOT NULL DEFAULT '',
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 500),
    text TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN
        ('number', 'below', 'above', 'present', 'absent', 'not analysed', 'text')),
    number TEXT CHECK (kind != 'number' OR number IS NOT NULL),
    unit TEXT NOT NULL DEFAULT '',
    basis TEXT NOT NULL DEFAULT '',
    fraction TEXT NOT NULL DEFAULT '',
    flags TEXT NOT NULL DEFAULT '',
    method TEXT NOT NULL DEFAULT '',
    reporting_limit TEXT NOT NULL DEFAULT '',
    detection_limit TEXT NOT NULL DEFAULT '',
    qualifier TEXT NOT NULL DEFAULT '',
    lab INTEGER REFERENCES lab (id),
    analysed TEXT NOT NULL DEFAULT '' CHECK (analysed = '' OR {_MOMENT.format("analysed")}),
    draw TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX result_by_sample ON result (sample);
CREATE INDEX result_by_parameter ON result (parameter, sample);
CREATE TABLE document (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL DEFAULT 'lab report',
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 500),
    media_type TEXT NOT NULL DEFAULT '',
    size INTEGER NOT NULL CHECK (size >= 0),
    sha256 TEXT NOT NULL UNIQUE CHECK (length(sha256) = 64)
) STRICT;
CREATE TABLE document_body (
    sha256 TEXT PRIMARY KEY,
    content BLOB NOT NULL
) STRICT;
CREATE TABLE attachment (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    document INTEGER NOT NULL REFERENCES document (id),
    sample INTEGER REFERENCES sample (id),
    well INTEGER REFERENCES well (id),
    CHECK ((sample IS NULL) != (well IS NULL)),
    UNIQUE (document, sample, well)
) STRICT;
CREATE INDEX attachment_by_sample ON attachment (sample);
CREATE TABLE event (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    well INTEGER NOT NULL REFERENCES well (id),
    kind TEXT NOT NULL CHECK (length(kind) BETWEEN 1 AND 100),
    day TEXT NOT NULL CHECK (day != '' AND ({_DAY.format("day")})),
    until TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("until")}),
    text TEXT NOT NULL DEFAULT '',
    private INTEGER NOT NULL DEFAULT 0 CHECK (private IN (0, 1))
) STRICT;
CREATE TABLE plan (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    point INTEGER NOT NULL REFERENCES point (id),
    panel TEXT NOT NULL,
    months INTEGER NOT NULL CHECK (months BETWEEN 0 AND 240),
    reason TEXT NOT NULL DEFAULT '',
    postponed TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("postponed")}),
    postponed_why TEXT NOT NULL DEFAULT '',
    UNIQUE (point, panel)
) STRICT;
CREATE TABLE journal (
    seq INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    action TEXT NOT NULL,
    reason TEXT NOT NULL DEFAULT '',
    undoes INTEGER REFERENCES journal (seq),
    changes TEXT NOT NULL,
    digest TEXT NOT NULL CHECK (length(digest) = 64)
) STRICT;
CREATE TRIGGER journal_is_never_changed BEFORE UPDATE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never changed'); END;
CREATE TRIGGER journal_is_never_shortened BEFORE DELETE ON journal
BEGIN SELECT RAISE(ABORT, 'the journal is never shortened'); END;
""",
    # Not released yet: it may still grow.
    2: f"""
ALTER TABLE sample ADD COLUMN cost TEXT NOT NULL DEFAULT '' CHECK ({_AMOUNT.format("cost")});
ALTER TABLE sample ADD COLUMN currency TEXT NOT NULL DEFAULT ''
    CHECK ((currency = '') = (cost = '') AND ({_CURRENCY.format("currency")}));
{_COST.format("treatment_unit")}
{_COST.format("service")}
{_COST.format("event")}
ALTER TABLE service ADD COLUMN meter TEXT NOT NULL DEFAULT '' CHECK ({_USE.format("meter")});
CREATE TABLE expense (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    well INTEGER NOT NULL REFERENCES well (id),
    day TEXT NOT NULL CHECK (day != '' AND ({_DAY.format("day")})),
    kind TEXT NOT NULL CHECK (length(kind) BETWEEN 1 AND 100),
    text TEXT NOT NULL DEFAULT '',
    cost TEXT NOT NULL CHECK (cost != '' AND ({_AMOUNT.format("cost")})),
    currency TEXT NOT NULL CHECK (currency != '' AND ({_CURRENCY.format("currency")}))
) STRICT;
CREATE TABLE upkeep_interval (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    well INTEGER NOT NULL REFERENCES well (id),
    unit INTEGER REFERENCES treatment_unit (id),
    task TEXT NOT NULL CHECK (length(task) BETWEEN 1 AND 100),
    months INTEGER NOT NULL CHECK (months BETWEEN 0 AND 240),
    reason TEXT NOT NULL DEFAULT '',
    use TEXT NOT NULL DEFAULT '' CHECK ({_USE.format("use")}),
    a_day TEXT NOT NULL DEFAULT '' CHECK ({_USE.format("a_day")})
) STRICT;
CREATE TABLE inspection_answer (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    event INTEGER NOT NULL REFERENCES event (id),
    item TEXT NOT NULL CHECK (length(item) BETWEEN 1 AND 100),
    answer TEXT NOT NULL CHECK (answer IN ('good', 'bad', 'not seen')),
    text TEXT NOT NULL DEFAULT '',
    mended TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("mended")}),
    UNIQUE (event, item)
) STRICT;
ALTER TABLE attachment ADD COLUMN event INTEGER REFERENCES event (id);
ALTER TABLE event ADD COLUMN flow TEXT NOT NULL DEFAULT '' CHECK ({_AMOUNT.format("flow")});
ALTER TABLE event ADD COLUMN flow_unit TEXT NOT NULL DEFAULT ''
    CHECK ((flow_unit = '') = (flow = '') AND flow_unit IN ('', 'gal/min', 'L/min'));
ALTER TABLE event ADD COLUMN hours TEXT NOT NULL DEFAULT '' CHECK ({_AMOUNT.format("hours")});
ALTER TABLE event ADD COLUMN drawdown TEXT NOT NULL DEFAULT ''
    CHECK ({_AMOUNT.format("drawdown")});
ALTER TABLE event ADD COLUMN drawdown_unit TEXT NOT NULL DEFAULT ''
    CHECK ((drawdown_unit = '') = (drawdown = '') AND drawdown_unit IN ('', 'ft', 'm'));
ALTER TABLE event ADD COLUMN done_by TEXT NOT NULL DEFAULT '';
ALTER TABLE sample ADD COLUMN awaited TEXT NOT NULL DEFAULT '';
ALTER TABLE sample ADD COLUMN bottles TEXT NOT NULL DEFAULT '';
ALTER TABLE sample ADD COLUMN cooling TEXT NOT NULL DEFAULT '';
ALTER TABLE sample ADD COLUMN parcel TEXT NOT NULL DEFAULT '';
ALTER TABLE sample ADD COLUMN form TEXT NOT NULL DEFAULT '';
ALTER TABLE sample ADD COLUMN known_to TEXT NOT NULL DEFAULT ''
    CHECK (known_to IN ('', 'month', 'year'));
ALTER TABLE result ADD COLUMN place TEXT NOT NULL DEFAULT '';
ALTER TABLE result ADD COLUMN report TEXT NOT NULL DEFAULT '';
CREATE TABLE price (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    lab INTEGER NOT NULL REFERENCES lab (id),
    kind TEXT NOT NULL DEFAULT 'tests' CHECK (kind IN ('tests', 'shipping')),
    name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
    amount TEXT NOT NULL DEFAULT '' CHECK ({_AMOUNT.format("amount")}),
    currency TEXT NOT NULL DEFAULT ''
        CHECK ((currency = '') = (amount = '') AND ({_CURRENCY.format("currency")})),
    parameters TEXT NOT NULL DEFAULT '',
    tests TEXT NOT NULL DEFAULT '',
    day TEXT NOT NULL DEFAULT '' CHECK ({_DAY.format("day")}),
    UNIQUE (lab, name)
) STRICT;
""",
}

# Tables whose rows are facts: each change of one of them stands in the journal. A row points to
# those of its own table or of tables before it.
FACTS = (
    "setting",
    "well",
    "construction",
    "point",
    "treatment_unit",
    "service",
    "lab",
    "sample",
    "result",
    "document",
    "event",
    "attachment",
    "plan",
    "expense",
    "upkeep_interval",
    "inspection_answer",
    "price",
)
