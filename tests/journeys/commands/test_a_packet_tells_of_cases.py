"""The first page of a packet says what is over an adopted limit, and which cases are open.

PFOA 4.0 ng/L from 26 April 2029: 89 FR 32532. On boiling: New York State on boil notices where a
chemical is present, read 2026-11-28.
"""

from reading import pages_of

FILE = "Sample date,Sample Location,Analyte,Result,Units\n{rows}"


def kept(shell, name, *rows):
    lines = "".join(f"{day},Tap,{what},{result},{unit}\n" for day, what, result, unit in rows)
    (shell.folder / name).write_text(FILE.format(rows=lines))
    shell.done("add", "home.wellbook", name, "--well", "W", "--point", "Tap", "--accept")


def pages(shell, day):
    shell.done("packet", "home.wellbook", "--for", "buyer", "-o", "p.pdf", "--on", day)
    return pages_of(shell.folder / "p.pdf")


def test_pfas_over_the_adopted_limit_and_no_nothing_beside_it(shell):
    shell.done("new", "home.wellbook")
    kept(shell, "a.csv", ("2026-05-03", "PFOA", "24", "ng/L"), ("2026-05-03", "PFOS", "35", "ng/L"))
    first, *others = pages(shell, "2026-06-16")
    assert "Over a limit that is adopted and does not bind yet." in first
    assert "It starts on 26 Apr 2029" in first
    assert "no result is over a limit for health" not in first
    assert "Open cases: PFOA, PFOS, Tap, since 3 May 2026." in first
    assert "April 2029" in " ".join(others)
    said = shell.done("status", "home.wellbook", "--on", "2026-06-16").out
    assert "over a limit to come" in said
    assert "starts on 2029-04-26" in said


def test_e_coli_with_nitrate_is_an_open_case_and_nobody_is_told_to_boil(shell):
    shell.done("new", "home.wellbook")
    water = ("Nitrate as N", "9.9", "mg/L"), ("E. coli", "Present", "per 100 mL")
    kept(shell, "a.csv", *(("2026-04-03", *row) for row in water))
    clean = ("E. coli", "Absent", "per 100 mL")
    kept(shell, "b.csv", *((day, *clean) for day in ("2026-05-03", "2026-05-12")))
    first, *_others = pages(shell, "2026-05-20")
    assert "E. coli, Tap, since 3 Apr 2026" in first
    for day in ("2026-04-04",):
        whole = " ".join(pages(shell, day))
        said = shell.done("status", "home.wellbook", "--on", day).out
        for words in (whole, said):
            assert "do not boil this water to drink it" in words
            assert "full rolling boil" not in words


def test_a_closed_case_is_told_with_its_end(shell):
    shell.done("new", "home.wellbook")
    figures = (("2024-04-03", "14"), ("2024-06-03", "3"), ("2024-09-03", "4"))
    kept(shell, "a.csv", *((day, "Nitrate as N", figure, "mg/L") for day, figure in figures))
    first, *_others = pages(shell, "2026-05-20")
    assert "Open cases" not in first
    assert "Closed cases: Nitrate, Tap, 3 Apr 2024 to 3 Sep 2024." in first
