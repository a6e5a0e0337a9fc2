"""What a book holds beside a parameter's results, as far as their verdicts ask for it."""

from itertools import chain

from wellbook.book.book import Book
from wellbook.water.beside import Samples, asked_beside, by_sample
from wellbook.water.catalogue import Catalogue


def beside(book: Book, point: int, parameter: str, catalogue: Catalogue) -> Samples:
    """Results of other parameters in the samples of a point that a parameter's verdicts ask for."""
    asked = asked_beside(parameter, catalogue)
    return by_sample(chain.from_iterable(book.results(point=point, parameter=key) for key in asked))
