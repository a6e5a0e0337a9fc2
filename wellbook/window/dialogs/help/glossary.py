"""What the words of the window mean, one sentence or two each, and the first steps."""

from dataclasses import dataclass

from wellbook.support.translation import _


@dataclass(frozen=True, slots=True)
class Word:
    """A word of the window and what it means."""

    word: str
    meaning: str


def first_steps() -> tuple[str, ...]:
    """How to begin, one step after another."""
    return (
        _(
            "Start a new book (menu File, New): one file on this computer that holds everything. "
            "There is no Save, because what is entered is kept in it at once."
        ),
        _(
            "Say where the well lies and who drinks the water (menu Record, Household), and name "
            "the places where you draw samples, such as the kitchen tap."
        ),
        _(
            "Enter the first test: drop the lab’s file on the window, or type a paper report "
            "(menu Record, Test by hand). You look it over before it is kept."
        ),
        _(
            "Look at the overview: what is over a limit comes first, then what is close to one. A "
            "double click on a line shows its chart and what it means."
        ),
        _(
            "See what is due (menu Record, Next round): on which day to draw, what to tell the "
            "lab, and the field sheet to print."
        ),
        _(
            "Put a copy of the book somewhere else from time to time (menu File, Copies). When the "
            "house changes hands, hand the history on (menu Share)."
        ),
        _(
            "Wellbook compares results with published limits. It can’t say that water is safe to "
            "drink: ask your health department or a certified lab."
        ),
    )


def words() -> tuple[Word, ...]:
    """The words of the window with what they mean, in the order of the alphabet."""
    found = (*_of_tests(), *_of_limits(), *_of_statistics(), *_of_sharing())
    return tuple(sorted(found, key=lambda one: one.word.casefold()))


def _of_tests() -> tuple[Word, ...]:
    return (
        Word(
            _("Book"),
            _("One file that holds the whole history of a household’s wells and their water."),
        ),
        Word(
            _("Test, sample"),
            _("Water drawn at one place at one time, with all that a lab reported of it."),
        ),
        Word(_("Reading, result"), _("One figure of a test: a parameter, its value and its unit.")),
        Word(_("Parameter"), _("What is measured: nitrate, lead, pH, coliform bacteria and more.")),
        Word(
            _("Panel"),
            _("Parameters that a lab tests together, usually from one bottle or one price."),
        ),
        Word(
            _("Round"),
            _("One visit to the taps on which everything that is due is drawn together."),
        ),
        Word(
            _("Sampling point"),
            _("A place where water is drawn, such as the pressure tank or the kitchen tap."),
        ),
        Word(
            _("Raw and treated"),
            _(
                "Water before and after treatment. Drawn on the same day as a pair, they show "
                "whether a treatment unit works."
            ),
        ),
        Word(
            _("First draw and flushed"),
            _(
                "Water that stood in the pipes for hours, and water after running for minutes. "
                "Lead and copper differ greatly between the two, so they are never compared."
            ),
        ),
        Word(
            _("Basis"),
            _(
                "What a figure is counted as. 10 mg/L of nitrate “as N” is about 44 mg/L “as NO3”: "
                "without the basis the figure can’t be judged."
            ),
        ),
        Word(
            _("Reporting limit"),
            _("The least that a lab reports; below it stands “<”. It is no zero."),
        ),
        Word(_("As printed"), _("Exactly what stood on the lab’s report; it is never changed.")),
        Word(
            _("Journal"),
            _("The list of every entry and correction, in order; nothing is taken out of it."),
        ),
        Word(
            _("Strike out"),
            _("Let a test count no longer, with a reason. It stays in the book and can return."),
        ),
        Word(
            _("Case"),
            _("A finding that is followed, test by test, until the rule that closes it is met."),
        ),
    )


def _of_limits() -> tuple[Word, ...]:
    return (
        Word(
            _("Limit"),
            _(
                "A published figure for public water supplies. For a private well it is a "
                "yardstick, not a rule."
            ),
        ),
        Word(
            _("Limit set"),
            _("The limits of one authority with their days, such as those of a state."),
        ),
        Word(
            _("Action level"),
            _(
                "A figure from which on something should be done, as for lead; no promise that "
                "less does no harm."
            ),
        ),
        Word(
            _("Standing"),
            _("How the latest result compares with the limit that holds now."),
        ),
        Word(
            _("Can’t be told"),
            _("The result and the limit can’t be compared; the line says why."),
        ),
        Word(
            _("40 CFR"),
            _("The part of the United States’ federal rules in which drinking water limits stand."),
        ),
    )


def _of_statistics() -> tuple[Word, ...]:
    return (
        Word(
            _("Trend"),
            _("Whether results rise or fall over the years more than chance would let them."),
        ),
        Word(
            _("Mann-Kendall test"),
            _(
                "A test for a trend that looks only at which of two results is larger, so that "
                "single odd values weigh little."
            ),
        ),
        Word(
            _("p"),
            _("How often chance alone would show at least such a trend in steady water."),
        ),
        Word(
            _("90 % interval"),
            _("The range that holds the true value in nine of ten cases like this one."),
        ),
        Word(_("n"), _("How many results a figure is made from.")),
    )


def _of_sharing() -> tuple[Word, ...]:
    return (
        Word(
            _("Packet"),
            _(
                "The history as one PDF to hand on. Wellbook can read it again and check that it "
                "agrees with itself."
            ),
        ),
        Word(
            _("Fingerprint, SHA-256"),
            _("A long figure worked out from a file. If one letter changes, so does the figure."),
        ),
        Word(
            _("Check code"),
            _(
                "A short code to be told by another way, by telephone for example. If it fits, the "
                "packet is the one that was made."
            ),
        ),
        Word(
            _("Original"),
            _("The lab’s report, a photo or another document, kept as it was received."),
        ),
    )
