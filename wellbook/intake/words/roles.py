"""What a column of a table, or a line beside it, can tell."""

from enum import StrEnum


class Role(StrEnum):
    """What a column, or a line before the table, tells."""

    NAME = "name"
    CODE = "code"
    CAS = "cas"
    RESULT = "result"
    SIGN = "sign"  # a `<` or `>` in a column of its own
    REMARK = "remark"  # USGS: a sign or a letter of theirs
    CONDITION = "condition"  # WQX: Not Detected and the like, in place of a value
    DETECTED = "detected"  # yes or no
    UNIT = "unit"
    BASIS = "basis"
    FRACTION = "fraction"
    QUALIFIER = "qualifier"
    REPORTING_LIMIT = "reporting limit"
    DETECTION_LIMIT = "detection limit"
    LIMIT_UNIT = "limit unit"
    LIMIT_TYPE = "limit type"
    METHOD = "method"
    LAB = "lab"
    ANALYSED = "analysed"
    ANALYSED_TIME = "analysed time"
    DRAW = "draw"
    STATUS = "status"
    DATE = "collected"
    SOME_DATE = "date"  # of what, is not said
    TIME = "time"
    ZONE = "zone"
    POINT = "point"
    WELL = "well"
    CLIENT_NUMBER = "client sample"  # what the household wrote on the bottle
    NUMBER = "lab number"
    REPORT_NUMBER = "report number"
    RECEIVED = "received"
    RECEIVED_TIME = "received time"
    REPORTED = "reported"
    SAMPLER = "sampler"
    PURPOSE = "purpose"
    TEMPERATURE = "temperature"
    KIND = "sample type"  # blanks and spikes are no water of the household
    MEDIUM = "medium"
    NOTE = "note"
    NOTHING = "nothing"  # understood, and of no use here
