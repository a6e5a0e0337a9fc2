"""What a letter to a doctor, a treatment dealer or a health department says beside the results.

A letter asks; it draws no conclusion and leaves the judgement to whoever is licensed to make it.
What is asked is common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from wellbook.support.translation import N_, _

DOCTOR, DEALER, DEPARTMENT = RECIPIENTS = ("doctor", "dealer", "health-department")


@dataclass(frozen=True, slots=True)
class LetterWords:
    """The sentences of one kind of letter.

    Attributes:
        to: Whom it goes to.
        subject: Its line of subject.
        opening: What is handed over and why.
        asked: What is asked, in order.
        closing: Who judges and decides.
    """

    to: str
    subject: str
    opening: str
    asked: tuple[str, ...]
    closing: str


_WORDS: Mapping[str, LetterWords] = {
    DOCTOR: LetterWords(
        to=N_("To the doctor"),
        subject=N_("Drinking water from our private well"),
        opening=N_(
            "We drink water from a private well, which no supplier watches over. Below stand its "
            "latest results, those about health first. Please tell us what they mean for the "
            "people in our house."
        ),
        asked=(
            N_("Does one of these results matter for somebody of us, and who should drink other "
               "water for now?"),
            N_("Do you advise an examination, for instance of the blood, because of one of them?"),
            N_("Which substance should we have tested that is missing here?"),
            N_("How much fluoride, sodium and the like comes from this water, where a diet or "
               "a medicine has to take it into account?"),
        ),
        closing=N_(
            "A test of water is no finding about a person: you judge that. The health department "
            "answers questions about the water itself."
        ),
    ),
    DEALER: LetterWords(
        to=N_("To the dealer in water treatment"),
        subject=N_("Offer for the treatment of our well water"),
        opening=N_(
            "We ask for an offer in writing. Below stand the latest results of our well water and "
            "what we know of the house. “Not known” is a question for your visit."
        ),
        asked=(
            N_("What does the unit take out, from how much to how much, at our flow, and what does "
               "it not take out?"),
            N_("Which independent certification has this very model for these very substances, "
               "and under which number can we look it up?"),
            N_("What does it put into the water or change in it: sodium, pH, chlorine, corrosion "
               "of pipes?"),
            N_("What does it cost to buy and install, and each year: media, salt, cartridges, "
               "lamps, power, water to the drain, service?"),
            N_("Will you have the water tested before and after by a certified lab, in samples "
               "that somebody without a stake draws, before we pay the rest?"),
        ),
        closing=N_(
            "Work on wiring, pipes and the well is for licensed people, by the local code. Results "
            "that are about health we also show to the health department before we decide; "
            "treatment does not replace the search for the cause."
        ),
    ),
    DEPARTMENT: LetterWords(
        to=N_("To the health department"),
        subject=N_("Results of our private well"),
        opening=N_(
            "We drink water from a private well. Below stand its latest results, those about "
            "health first. Please advise us."
        ),
        asked=(
            N_("What do these results mean here, and which rules hold for a private well like "
               "ours?"),
            N_("Which further tests do you advise at this place: rock, land use, and what is known "
               "of the neighbouring wells?"),
            N_("Is a second sample needed, how soon, drawn by whom, and which labs are certified "
               "for it?"),
            N_("Which work on the well has to be reported or permitted, and who is licensed "
               "to do it?"),
        ),
        closing=N_(
            "Until we hear from you we follow the usual cautions; please tell us if you advise "
            "otherwise."
        ),
    ),
}  # fmt: skip


def letter_words(recipient: str) -> LetterWords:
    """The sentences of a letter in the language of now.

    Raises:
        KeyError: There is no letter to such a recipient.
    """
    found = _WORDS[recipient]
    return LetterWords(
        to=_(found.to),
        subject=_(found.subject),
        opening=_(found.opening),
        asked=tuple(map(_, found.asked)),
        closing=_(found.closing),
    )


def recipient_name(recipient: str) -> str:
    """Whom a letter goes to, to choose by."""
    return {
        DOCTOR: _("a &doctor"),
        DEALER: _("a dealer in water &treatment"),
        DEPARTMENT: _("the &health department"),
    }[recipient]
