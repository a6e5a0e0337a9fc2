"""The slips that would explain an odd figure."""

from enum import StrEnum


class Slip(StrEnum):
    """What may have gone wrong between the water and the record."""

    AS_BICARBONATE = "alkalinity given as bicarbonate"
    HALVED = "alkalinity divided by 100 and not by 50"
    NITRATE_AS_NO3 = "nitrate given as NO3 and not as N"
    NITRATE_AS_N = "nitrate given as N and not as NO3"
    SULFATE_AS_S = "sulfate given as S"
    CALCIUM_AS_CACO3 = "calcium given as CaCO3"
    MAGNESIUM_AS_CACO3 = "magnesium given as CaCO3"
    POINT_IN_CALCIUM = "decimal point in calcium"
    POINT_IN_MAGNESIUM = "decimal point in magnesium"
    POINT_IN_SODIUM = "decimal point in sodium"
    POINT_IN_CHLORIDE = "decimal point in chloride"
    POINT_IN_SULFATE = "decimal point in sulfate"
    POINT_IN_ALKALINITY = "decimal point in alkalinity"
    POINT = "decimal point"
    POINT_BY_TWO = "decimal point by two"
    MICRO_FOR_MILLI = "µg/L for mg/L"
    NITRATE_FORMS = "nitrate as NO3 for nitrate as N"
    NITRITE_FORMS = "nitrite as NO2 for nitrite as N"
    GRAINS = "grains per gallon for mg/L"
    HARDNESS_IN_GRAINS = "hardness in grains per gallon"
    MG_FOR_GRAINS = "a figure in mg/L taken for grains per gallon"
    BOTH_AS_CACO3 = "calcium and magnesium given as CaCO3"
    ANY = "copying, or another sample"
