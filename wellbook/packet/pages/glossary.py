"""Words of the trade that stand in a packet, each in a sentence or two of our own."""

from wellbook.support.translation import mark

TERMS = (
    (
        mark("as N, as NO3, as CaCO3"),
        mark(
            "The basis: what the weight was counted as. 10 mg/L of nitrate as N is the same water "
            "as 44.3 mg/L as NO3, so figures compare only on one basis."
        ),
    ),
    (
        mark("action level"),
        mark(
            "A figure at which a public supply has to act; for lead and copper it is held against "
            "the first water out of a tap that was not used for six hours or more."
        ),
    ),
    (
        mark("advisory"),
        mark("Published advice on health that is not a rule."),
    ),
    (
        mark("aesthetic level"),
        mark("A figure for taste, look, smell, stains or corrosion."),
    ),
    (
        mark("CFU, MPN"),
        mark(
            "Two ways of counting bacteria in 100 mL: colonies grown, and the most probable "
            "number by statistics."
        ),
    ),
    (
        mark("close to the limit"),
        mark("Within the limit, but not by much; the next sample may be over it."),
    ),
    (
        mark("can’t be told"),
        mark(
            "The reading does not decide whether the limit is met, for instance because the lab "
            "could not see as low as the limit, or a bacteria sample was held too long."
        ),
    ),
    (
        mark("detection limit"),
        mark("The least that the method tells from nothing (often printed as MDL)."),
    ),
    (
        mark("first draw, flushed"),
        mark(
            "The first water out of the tap after hours without use, which shows the pipes; and "
            "water after running for minutes, which shows the well."
        ),
    ),
    (
        mark("limit"),
        mark(
            "A published figure or rule, with the set it belongs to and the days it was in force. "
            "Limits bind public supplies; for a private well they are yardsticks."
        ),
    ),
    (
        mark("mg/L, µg/L, ng/L"),
        mark(
            "Thousandths, millionths and billionths of a gram in a litre. 1 mg/L is 1,000 µg/L, "
            "and 1 µg/L is 1,000 ng/L."
        ),
    ),
    (
        mark("NTU"),
        mark("A measure of cloudiness."),
    ),
    (
        mark("pCi/L, Bq/L"),
        mark("Radioactive decays in a litre. 1 Bq/L is about 27 pCi/L."),
    ),
    (
        mark("reading"),
        mark("What the lab wrote for one parameter in one sample."),
    ),
    (
        mark("reporting limit"),
        mark(
            "The least that the lab reports as a figure. “<0.005” means: not found at that limit. "
            "It does not mean zero."
        ),
    ),
    (
        mark("struck out"),
        mark("A test marked as not to be counted, with a reason. It stays in the record."),
    ),
    (
        mark("TNTC"),
        mark("Too numerous to count: so many colonies that the plate could not be read."),
    ),
    (
        mark("total, dissolved"),
        mark(
            "The whole sample, or only what passes a fine filter. Limits are on the total; a "
            "dissolved result can’t show that one is met."
        ),
    ),
    (
        mark("trend"),
        mark(
            "Whether the readings rise or fall over the years by more than chance, by a rank test "
            "that needs several tests. Too few tests give no answer."
        ),
    ),
    (
        mark("verdict"),
        mark(
            "How a reading stands to a limit: by the limit in force on the day of sampling, and "
            "by the one in force now."
        ),
    ),
)
