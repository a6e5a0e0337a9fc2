"""Words of the trade that stand in a packet, each in a sentence or two of our own."""

from wellbook.support.translation import N_

TERMS = (
    (
        N_("as N, as NO3, as CaCO3"),
        N_(
            "The basis: what the weight was counted as. 10 mg/L of nitrate as N is the same water "
            "as 44.3 mg/L as NO3, so figures compare only on one basis."
        ),
    ),
    (
        N_("action level"),
        N_(
            "A figure at which a public supply has to act; for lead and copper it is held against "
            "the first water out of a tap that was not used for six hours or more."
        ),
    ),
    (
        N_("advisory"),
        N_("Published advice on health that is not a rule."),
    ),
    (
        N_("level for taste and look"),
        N_("A figure for taste, look, smell, stains or corrosion, called aesthetic by agencies."),
    ),
    (
        N_("CFU, MPN"),
        N_(
            "Two ways of counting bacteria in 100 mL: colonies grown, and the most probable "
            "number by statistics."
        ),
    ),
    (
        N_("close to the limit"),
        N_("Within the limit, but not by much; the next sample may be over it."),
    ),
    (
        N_("can’t be told"),
        N_(
            "The reading does not decide whether the limit is met, for instance because the lab "
            "could not see as low as the limit, or a bacteria sample was held too long."
        ),
    ),
    (
        N_("detection limit"),
        N_("The least that the method tells from nothing (often printed as MDL)."),
    ),
    (
        N_("first draw, flushed"),
        N_(
            "The first water out of the tap after hours without use, which shows the pipes; and "
            "water after running for minutes, which shows the well."
        ),
    ),
    (
        N_("limit"),
        N_(
            "A published figure or rule, with the set it belongs to and the days it was in force. "
            "Limits bind public supplies; for a private well they are yardsticks."
        ),
    ),
    (
        N_("mg/L, µg/L, ng/L"),
        N_(
            "Thousandths, millionths and billionths of a gram in a litre. 1 mg/L is 1,000 µg/L, "
            "and 1 µg/L is 1,000 ng/L."
        ),
    ),
    (
        N_("NTU"),
        N_("A measure of cloudiness."),
    ),
    (
        N_("pCi/L, Bq/L"),
        N_("Radioactive decays in a litre. 1 Bq/L is about 27 pCi/L."),
    ),
    (
        N_("reading"),
        N_("What the lab wrote for one parameter in one sample."),
    ),
    (
        N_("reporting limit"),
        N_(
            "The least that the lab reports as a figure. “<0.005” means: not found at that limit. "
            "It does not mean zero."
        ),
    ),
    (
        N_("struck out"),
        N_("A test marked as not to be counted, with a reason. It stays in the record."),
    ),
    (
        N_("TNTC"),
        N_("Too numerous to count: so many colonies that the plate could not be read."),
    ),
    (
        N_("total, dissolved"),
        N_(
            "The whole sample, or only what passes a fine filter. Limits are on the total; a "
            "dissolved result can’t show that one is met."
        ),
    ),
    (
        N_("trend"),
        N_(
            "Whether the readings rise or fall over the years by more than chance, by a rank test "
            "that needs several tests. Too few tests give no answer."
        ),
    ),
    (
        N_("verdict"),
        N_(
            "How a reading stands to a limit: by the limit in force on the day of sampling, and "
            "by the one in force now."
        ),
    ),
)
