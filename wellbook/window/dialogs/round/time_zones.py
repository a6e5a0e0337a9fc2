"""Time zones as people call them: their names with a city, those of the household's country first.

Names, cities and which zones tell the same time are from Unicode CLDR as Qt carries it.
"""

from collections import Counter
from functools import lru_cache

from PySide6.QtCore import QByteArray, QDateTime, QLocale, QTimeZone

from wellbook.planning.lab.lab_route import ZONE
from wellbook.planning.place.zones import zone_of
from wellbook.window.common.words import language

_TECHNICAL = "Etc/"


def offered(country: str, *kept: str) -> dict[str, str]:
    """Zones to choose from, by their names in the IANA list, each with what people call it.

    Args:
        country: ISO 3166 code of the household's country, or nothing.
        kept: Zones that are chosen now; each stands for those that tell the same time.
    """
    alike = {_like(zone, country): zone for zone in kept}
    own = [alike.get(zone, zone) for zone in _of_country(country)]
    first = dict.fromkeys((*own, *kept))
    covered = {_like(zone) for zone in first}
    rest = {called(zone): zone for zone in _everywhere() if zone not in covered}
    return {zone: called(zone) for zone in first} | {rest[name]: name for name in sorted(rest)}


def called(zone: str) -> str:
    """The name of a zone in the language of the window, with the city that it is known by."""
    known = QTimeZone(QByteArray(zone.encode()))
    if not known.isValid():
        return zone
    standard, long = QTimeZone.TimeType.StandardTime, QTimeZone.NameType.LongName
    name = known.displayName(standard, long, language())
    has_city = "/" in zone and not zone.startswith(_TECHNICAL)
    return f"{name} ({zone.rpartition('/')[2].replace('_', ' ')})" if has_city else name or zone


def usual(country: str, state: str = "") -> str:
    """The zone of this computer unless it stands in another country, else the one of the place."""
    system = QTimeZone.systemTimeZone()
    stands = system.territory()
    is_somewhere = stands not in {QLocale.Country.AnyTerritory, QLocale.Country.World}
    if is_somewhere and (not country or stands is QLocale.codeToTerritory(country)):
        return _text(system.id())
    return zone_of(country, state) or ZONE


@lru_cache(maxsize=8)
def _of_country(country: str) -> dict[str, int]:
    """One zone for each time that is told in a country, from east to west; how many tell it."""
    territory = QLocale.codeToTerritory(country)
    if territory is QLocale.Country.AnyTerritory:
        return {}
    zones = QTimeZone.availableTimeZoneIds(territory)
    found = Counter(_like(_text(zone), country) for zone in zones)
    now = QDateTime.currentDateTimeUtc()
    east = {zone: QTimeZone(QByteArray(zone.encode())).standardTimeOffset(now) for zone in found}
    return {zone: found[zone] for zone in sorted(found, key=lambda one: (-east[one], -found[one]))}


@lru_cache(maxsize=1)
def _everywhere() -> frozenset[str]:
    """One zone for each time that is told on earth."""
    known = map(_text, QTimeZone.availableTimeZoneIds())
    usual_ones = {_like(zone) for zone in known if _family(zone)}
    return frozenset(zone for zone in usual_ones if not zone.startswith(_TECHNICAL))


def _like(zone: str, country: str = "") -> str:
    """The zone that stands for all which tell the same time, in a country or on earth."""
    family, territory = QByteArray(_family(zone).encode()), QLocale.codeToTerritory(country)
    default = QTimeZone.windowsIdToDefaultIanaId
    there = _text(default(family, territory)) if family.size() and country else ""
    return there or (_text(default(family)) if family.size() else "") or zone


def _family(zone: str) -> str:
    return _text(QTimeZone.ianaIdToWindowsId(QByteArray(zone.encode())))


def _text(name: QByteArray) -> str:
    return bytes(name.data()).decode()
