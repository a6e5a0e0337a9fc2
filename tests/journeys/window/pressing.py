"""Presses everything that can be pressed in the window of an invented household."""

import commands


def press_everything(use, books, household, tmp_path):
    """Sweep every page and dialog; each household's sweep lies in a file of its own, so that a
    run on several processors shares them out."""
    (book,) = books(household)
    packet = tmp_path / "packet.pdf"
    commands.run("packet", book, "--for", "buyer", "-o", packet, check=True)
    report = use("sweep:everything", book, seconds=1100)
    assert report["failures"] == [], "\n".join(report["failures"])
    assert len(report["tried"]) > 400
