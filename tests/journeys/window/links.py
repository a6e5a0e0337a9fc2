"""The links at the head lead to their pages."""

import hand


def each_link_leads_to_its_page(told):
    for name in ("Tests", "Events", "Well", "Overview"):
        yield from hand.push(name)
        told.note(f"link {name}")
        chosen = [b.text() for b in hand.visible(hand.QAbstractButton) if b.isChecked()]
        told.facts[name] = chosen
