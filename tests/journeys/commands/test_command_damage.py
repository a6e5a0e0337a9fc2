"""Books that another program changed: each command works, or says that the book is damaged."""

import os
import random
import shutil
import sqlite3
from contextlib import closing, suppress

import pytest
from click.testing import CliRunner
from command_line import DAY, SAMPLES

from wellbook.cli.main import cli

BOOKS = int(os.environ.get("WELLBOOK_HARMED", "24"))
TABLES = (
    "setting", "well", "construction", "point", "treatment_unit", "service", "lab", "sample",
    "result", "document", "document_body", "attachment", "event", "plan", "journal",
    "sqlite_sequence",
)  # fmt: skip
VALUES = (
    "''", "NULL", "'zz'", "0", "-1", "99999", "1", "2", "'1'", "'NaN'", "'Infinity'", "'1e999999'",
    "'2024-02-30'", "'0000-00-00'", "'2024'", "'2024-13'", "'9999-12-31'", "'0001-01-01'",
    "'2024-05-03T25:61'", "CAST(x'ff' AS TEXT)", "x'00ff'", "'a' || char(0) || 'b'", "'{'", "'[]'",
    "'[[\"well\", 1, null]]'", "hex(zeroblob(300))", "9223372036854775807", "'<b>'", "char(10)",
)  # fmt: skip
COMMANDS = (
    ("status", "{}", "--on", DAY),
    ("due", "{}", "--on", DAY),
    ("round", "{}", "--on", DAY, "-o", "sheet.pdf"),
    ("calendar", "{}", "--on", DAY, "-o", "water.ics"),
    ("habits", "{}", "--set", "zone=Europe/Berlin"),
    ("chart", "{}", "nitrate", "-o", "nitrate.png"),
    ("export", "{}", "-o", "tables"),
    ("add", "{}", "lab.csv", "--accept"),
    ("backup", "{}", "--to", "."),
    ("packet", "{}", "--for", "consultant", "--personal", "--on", DAY, "-o", "history.pdf"),
)


def harms(dice):
    """Statements that a household's other programs would never write, but may."""
    table, other = dice.choice(TABLES), dice.choice(TABLES)
    value = dice.choice(VALUES)
    return dice.choice(
        (
            f"UPDATE {table} SET {{column}} = {value} WHERE rowid = {{row}}",
            f"UPDATE {table} SET {{column}} = {value} WHERE rowid = {{row}}",
            f"UPDATE {table} SET {{column}} = {value} WHERE rowid = {{row}}",
            f"UPDATE {table} SET {{column}} = {value}",
            f"DELETE FROM {table} WHERE rowid = {{row}}",
            f"DELETE FROM {table}",
            f"UPDATE sqlite_sequence SET seq = {dice.choice((-5, 0, 1, 10**18))}",
            f"DROP TABLE {table}",
            f"ALTER TABLE {table} RENAME TO kept; CREATE VIEW {table} AS SELECT * FROM kept",
            f"CREATE TRIGGER t AFTER INSERT ON {table} BEGIN DELETE FROM {other}; END",
            f"ALTER TABLE {table} ADD COLUMN more TEXT",
            f"PRAGMA user_version = {dice.choice((0, 2, 99, -1))}",
            f"PRAGMA application_id = {dice.choice((0, 1))}",
        )
    )  # fmt: skip


def harm(path, dice):
    """Change a book by a statement or two, past its own constraints; returns what was done."""
    done = []
    with closing(sqlite3.connect(path, isolation_level=None)) as book:
        book.execute("PRAGMA ignore_check_constraints = ON")
        book.execute("PRAGMA foreign_keys = OFF")
        if dice.random() < 0.5:  # a journal that may be changed, put back as it was
            triggers = book.execute("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'")
            triggers = triggers.fetchall()
        else:
            triggers = []
        for name, _ in triggers:
            book.execute(f"DROP TRIGGER {name}")
        for _ in range(dice.randint(1, 2)):
            statement = harms(dice)
            table = statement.split()[1 if statement.startswith("UPDATE") else 2]
            with suppress(sqlite3.Error):
                columns = [row[1] for row in book.execute(f"PRAGMA table_info({table})")]
                rows = book.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
                statement = statement.replace("{column}", dice.choice(columns))
                statement = statement.replace("{row}", str(dice.randint(1, max(rows, 1))))
            with suppress(sqlite3.Error):
                book.executescript(statement)
                done.append(statement)
        for _, sql in triggers:
            with suppress(sqlite3.Error):
                book.execute(sql)
    return done


@pytest.mark.parametrize("seed", range(BOOKS))
def test_a_harmed_book_is_read_or_said_to_be_damaged(tmp_path, monkeypatch, seed):
    monkeypatch.chdir(tmp_path)
    dice = random.Random(seed)
    sample = dice.choice(("alder-hollow", "first-year", "salt-lane"))
    harmed = shutil.copy(SAMPLES / f"{sample}.wellbook", tmp_path / "harmed.wellbook")
    statements = harm(harmed, dice)
    (tmp_path / "lab.csv").write_text(
        "Sample date,Analyte,Result,Units\n2024-05-03,Chloride,21,mg/L\n"
    )
    points = ("--point", "Kitchen tap")
    commands = [*COMMANDS[:-1], *COMMANDS[-1:] * (seed % 4 == 0)]
    for command in dice.sample(commands, 4):
        book = shutil.copy(harmed, tmp_path / "home.wellbook")
        words = [book if word == "{}" else word for word in command]
        answer = CliRunner().invoke(cli, [*map(str, words), *points * (words[0] == "add")])
        said = (statements, words, answer.output)
        if answer.exception and not isinstance(answer.exception, SystemExit):
            raise AssertionError(said) from answer.exception
        assert answer.exit_code in {0, 1, 2, 3}, said
        if "is damaged" in answer.output:
            assert CliRunner().invoke(cli, ["check", str(book)]).exit_code == 1, said
