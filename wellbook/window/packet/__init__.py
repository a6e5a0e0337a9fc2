"""Packets on screen: choosing what goes in, looking over one that came, going on from it."""
