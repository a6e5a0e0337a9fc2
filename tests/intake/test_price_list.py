"""A lab's price list: names are recognised as in its reports, and doubtful ones are asked about."""

import pytest

from wellbook.book.rows import SHIPPING
from wellbook.intake.price_list import Typed, is_price_list, read_price, read_prices
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(paths.resources())
LIST = """name,price,currency,tests,kind,day
Home package,55.00,USD,"Nitrate as N; E. coli; pH; Hardness",,2026-03-01
Metals,48,USD,"Lead, Copper, Arsenic, Iron",package,
Lead,22.50,USD,,,
Arsenic,,,,,
Overnight parcel,21.40,USD,,shipping,
"""


@pytest.fixture
def read(tmp_path):
    def read(text, **how):
        path = tmp_path / "prices.csv"
        path.write_bytes(text.encode(how.pop("encoding", "utf-8")))
        return read_prices(path, CATALOGUE, **how)

    return read


def test_packages_single_tests_and_shipping_are_read(read):
    home, metals, lead, arsenic, parcel = read(LIST).prices
    assert home.parameters == "nitrate e_coli ph hardness"
    assert (home.amount, home.currency, home.day) == ("55.00", "USD", "2026-03-01")
    assert metals.parameters == "lead copper arsenic iron"
    assert lead.parameters == "lead", "a single test is named as its parameter"
    assert (arsenic.amount, arsenic.currency) == ("", ""), "not known, and never free"
    assert (parcel.kind, parcel.parameters) == (SHIPPING, "")


@pytest.mark.parametrize(
    ("text", "is_one"),
    [
        (LIST, True),
        ("Package,Fee,Includes\nHome,55,Nitrate\n", True),
        ("Panel;Cost\nMetals;48\n", True),
        ("Test,Result,Units,Price\nNitrate,3.1,mg/L,18\n", False),
        ("Analyte,Result,Units\nNitrate,3.1,mg/L\n", False),
        ("Name,Tests\nHome,Nitrate\n", False),
        ("", False),
    ],
)
def test_a_price_list_is_told_from_a_report_by_its_first_row(tmp_path, text, is_one):
    path = tmp_path / "file.csv"
    path.write_text(text, encoding="utf-8")
    assert is_price_list(path) == is_one
    path.rename(tmp_path / "file.pdf")
    assert not is_price_list(tmp_path / "file.pdf")
    assert not is_price_list(tmp_path)


def test_columns_by_other_words_are_read(read):
    (price,) = read("Package,Fee,Includes,Currency\nHome,55,Nitrate; Lead,USD\n").prices
    assert (price.name, price.amount, price.parameters) == ("Home", "55", "nitrate lead")


@pytest.mark.parametrize("encoding", ["utf-8-sig", "cp1252", "utf-16"])
def test_a_list_with_semicolons_and_decimal_commas_is_read(read, encoding):
    text = "Name;Price;Currency;Tests\nTrinkwasser klein;62,50;EUR;Nitrat | Blei\nMn;9;EUR;Mangan\n"
    small, manganese = read(text.replace(" | ", ","), encoding=encoding).prices
    assert (small.amount, small.currency) == ("62.50", "EUR")
    assert small.parameters == "nitrate lead"
    assert manganese.parameters == "manganese"


def test_a_name_that_is_nearly_known_is_asked_about_and_not_taken(read):
    found = read("name,price,currency,tests\nA,5,USD,Arsenik total; Manganeese; Frobnium\n")
    (price,) = found.prices
    assert "manganese" not in price.parameters
    asked = {one.printed: one.near for one in found.unsure}
    assert asked["Manganeese"] == "manganese"
    assert asked["Frobnium"] == ""
    assert "Manganeese" in price.tests, "what was printed is kept"


def test_a_person_says_what_a_name_means_or_that_it_is_left_out(read):
    text = "name,price,currency,tests\nA,5,USD,Frobnium; Nitrogen\n"
    found = read(text, means={"Frobnium": "", "Nitrogen": "nitrate"})
    assert found.prices[0].parameters == "nitrate"
    assert found.unsure == ()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "no column name, price"),
        ("name,tests\nA,Lead\n", "no column price"),
        ("name,price,currency\n", "holds no price"),
        ("name,price,currency\nA,$5,USD\n", "row 2: $5 can’t be read as a cost"),
        ("name,price,currency\nA,5,\n", "row 2: Say in which currency"),
        ("name,price,currency\nA,5,USD\nA,6,USD\n", "names A twice"),
        ("name,price,currency\nA,5,USD\nB,6,CAD\n", "several currencies: CAD, USD"),
        ("name,price,currency,kind\nA,5,USD,gift\n", "'gift' is no kind of price"),
        ("name,price,currency,day\nA,5,USD,soon\n", "soon is no day"),
        ("name,price,currency\n,5,USD\n", "row 2: A price needs a name"),
    ],
)
def test_what_can_not_be_read_is_named_with_its_row(read, text, says):
    with pytest.raises(Fault) as why:
        read(text)
    assert says in str(why.value)


def test_a_typed_price_is_read_alike():
    price, unsure = read_price(Typed("Lead", "22,50", currency="usd"), CATALOGUE)
    assert (price.amount, price.currency, price.parameters) == ("22.50", "USD", "lead")
    assert unsure == ()


@pytest.mark.parametrize(
    ("name", "kind", "keys"),
    [
        ("Total coliform and E. coli", "tests", "total_coliform e_coli"),
        ("Basics: nitrate, lead & arsenic", "tests", "nitrate lead arsenic"),
        ("Metals (lead, copper)", "tests", "lead copper"),
        ("Nitrate and nitrite", "tests", "nitrate_nitrite"),
        ("Metals: lead and mystery", "tests", ""),
        ("Shipping", "shipping", ""),
    ],
)
def test_a_plain_list_tells_its_tests_by_their_names_where_all_are_known(name, kind, keys):
    price, unsure = read_price(Typed(name, "5", currency="USD"), CATALOGUE)
    assert (price.kind, price.parameters) == (kind, keys)
    assert [one.printed for one in unsure] == ([] if keys or kind == "shipping" else [name])
