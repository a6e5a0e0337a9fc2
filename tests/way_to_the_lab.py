"""A usual way to a lab, for tests: overnight by parcel, bacteria from Monday to Thursday."""

from datetime import time
from zoneinfo import ZoneInfo

from wellbook.water.sampling.lab_calendar import Calendar
from wellbook.water.sampling.shipping import Hours, LabHours, Parcel

ZONE = ZoneInfo("America/New_York")


def way(closed=frozenset(), **more):
    desk = LabHours(ZONE, cut_off=time(13), starts=time(15), closed=frozenset(closed))
    parcel = Parcel(ZONE, pickup=time(17), delivered=time(10, 30), closed=frozenset(closed))
    return Calendar(Hours(ZONE), parcel, desk, **more)
