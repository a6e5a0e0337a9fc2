"""Units of the indices and the ends of the classes in use; `indices` works them out."""

TOP = float("inf")

UNITS = {
    "hardness": "mg/L as CaCO3",
    "carbonate_hardness": "mg/L as CaCO3",
    "noncarbonate_hardness": "mg/L as CaCO3",
    "charge_balance": "%",
    "solids_sum": "mg/L",
    "solids_ratio": "",
    "solids_to_conductivity": "mg/L per µS/cm",
    "ionic_strength": "mol/L",
    "langelier": "",
    "langelier_short": "",
    "ryznar": "",
    "aggressive_index": "",
    "chloride_sulfate": "",
    "larson": "",
    "sodium_adsorption": "",
    "sodium_percent": "%",
    "sodium_chloride": "",
    "chloride_bromide": "",
}

# Upper ends of the classes, in rising order; `wording.indices` has their words and sources.
CLASS_ENDS = {
    "langelier": (-0.5, 0.5, TOP),
    "ryznar": (6.0, 7.0, 8.0, TOP),
    "aggressive_index": (10.0, 12.0, TOP),
    "larson": (0.8, 1.2, TOP),
}
