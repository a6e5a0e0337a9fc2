"""The fields of labs and of their price lists, declared as in `record_fields`."""

from wellbook.book.rows import Lab, Price
from wellbook.sharing.fields import Field, Table
from wellbook.support.translation import N_

LABS = Table(
    "lab",
    "labs.csv",
    N_("One row for each lab"),
    (
        Field("lab", "Number of the lab", at="id", is_number=True),
        Field("name", "Name of the lab", label=N_("name")),
        Field("accreditation", "Program and number as entered", label=N_("accreditation")),
        Field(
            "valid_from",
            "First day the accreditation was valid",
            "ISO 8601",
            label=N_("valid from"),
        ),
        Field("valid_to", "Last day the accreditation was valid", "ISO 8601", label=N_("valid to")),
        Field("note", "The household's words", label=N_("remark"), is_free=True),
    ),
    Lab,
)
PRICES = Table(
    "price",
    "prices.csv",
    N_("One row for each price of a lab’s list"),
    (
        Field("price", "Number of the price", at="id", is_number=True),
        Field("lab", "Number of the lab", is_number=True),
        Field("kind", "tests: of a package or a single test; shipping: of the parcel"),
        Field("name", "As the list prints it", label=N_("name"), is_free=True),
        Field(
            "amount",
            "What it costs; empty where that is not known",
            "see the column currency",
            label=N_("price"),
        ),
        Field("currency", "Currency of the price", "ISO 4217", label=N_("currency")),
        Field(
            "parameters",
            "Keys of the parameters that it measures, separated by spaces",
            label=N_("what is measured"),
        ),
        Field("tests", "What it measures, in the words of the list", is_free=True),
        Field("day", "Day, month or year of the list", "ISO 8601", label=N_("day of the list")),
    ),
    Price,
)
