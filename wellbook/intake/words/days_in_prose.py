"""Days within sentences: which are of sampling, and which of a test as a whole.

Words of the trade in four languages, from memory.
"""

import re

from wellbook.water.values.signs import folded

# Words right before a day within a sentence, such as `the sample that was taken on 11 July 2023`.
_IN_PROSE = re.compile(
    r"\b(?:sampled|drawn|collected|taken|brought in)\b(?: (?:on|the|from|us|to|at|it|was)\b){0,3}$"
    r"|\b(?:sample|samples|water|muestra|probe|echantillon|prelevement|toma) "
    r"(?:of|from|on|vom|del|du|de)(?: (?:the|dia))?$"
    r"|\b(?:tomad[ao]s?|recogid[ao]s?|muestread[ao]) (?:el|en|con fecha)(?: dia)?$"
    r"|\b(?:preleve\w*|pris) le$|\b(?:entnommen|gezogen) am$|\bprobenahme (?:am|vom)$"
)


# Words right behind a day, as in `in der am 3. Mai entnommenen Probe`.
_BEHIND = re.compile(r"\s*(?:entnommen|gezogen|collected|taken|drawn|sampled)")
# The same further behind, as in `On May 3, 2024 a water sample was collected`.
_LATER = re.compile(
    r"\s*(?:(?:an?|the|your|our|we|he|she|i|one|two|first|water|drinking|well|tap|household|home"
    r"|samples?|was|were|has|have|been|of|from)\s+){1,8}(?:collected|taken|drawn|sampled|took)\b"
    r"|\s*(?:se tom\w+|fue tomad\w+)\b.*\bmuestra|\s*(?:nous avons|a ete|on a) preleve"
    r"|\s*(?:une?|l)\W(?:echantillon|prelevement)\b.{0,12}\ba ete (?:preleve|pris|effectue)"
    r"|[^.;:]{0,70}\b(?:entnommen|gezogen|genommen|erhoben)e[nr]?\s+\w*proben?\b"
    r"|\s*(?:wurden?|haben wir)\b.*\w*proben? (?:.* )?(?:entnommen|gezogen)\b"
)
_ON = re.compile(r"\b(?:on|am|el|le)(?: (?:dia))?$")
_SHORT, _FARTHER = 30, 90  # letters behind a day that are looked at
_OF_A_TEST = re.compile(
    r"\b(?:tests?|results?|analys[ei]s) (?:of|from|on)(?: the)?$"
    r"|\b(?:tested|testing|measured|checked)\b(?: [a-z]+){0,6} on(?: the)?$"
    r"|\b(?:analizamos|medimos|probamos)\b(?: [a-z]+){0,6} el(?: dia)?$"
    r"|\b(?:gemessen|getestet|gepruft)\b(?: [a-z]+){0,3} am$"
    r"|\b(?:mesure|teste)s?\b(?: [a-z]+){0,6} le$"
)
# The same behind the day, as in `On May 3, 2024 we tested your raw water`.
_TESTED = re.compile(
    r"[ ,]*(?:we|i|they|he|she|you|your (?:water|well) was) (?:have |had |also )?"
    r"(?:tested|measured|checked)\b|[ ,]*(?:analizamos|medimos|probamos)\b"
    r"|[ ,]*(?:haben wir|wurde)\b.*\b(?:gemessen|getestet|gepruft)\b"
    r"|[ ,]*nous avons (?:mesure|teste|analyse)"
)


# The same farther before it, as in `collected from your private well on July 8`, unless another
# verb, such as in `collected here and tested on July 8`, stands between.
_FARTHER_BEFORE = re.compile(
    r"\b(?:sampled|drawn|collected|taken|tomad[ao]s?|recogid[ao]s?|preleve[es]*)\b"
    r"(?P<between>[^.;:]{1,60})\b(?:on(?: the)?|el(?: dia)?|le)$"
)
_ANOTHER = re.compile(
    r"\b(?:and|y|et|analy[sz]|test|receiv|report|mail|sent|measur|examin|analiz|recib|emit|envi"
    r"|recu|edite|envoye)"
)


def is_of_sampling(before: str, behind: str) -> bool:
    """Whether the words around a day say that the water was drawn on it.

    Args:
        before: The words before it, in lower case and without accents.
        behind: What follows it.
    """
    farther = _FARTHER_BEFORE.search(before)
    if farther and not _ANOTHER.search(farther["between"]):
        return True
    if _IN_PROSE.search(before) or _BEHIND.match(folded(behind[:_SHORT])):
        return True
    sentence = folded(re.split(r"[.;:]", behind, maxsplit=1)[0][:_FARTHER]).lstrip(" ,")
    return bool(_ON.search(before) and _LATER.match(sentence))


def is_of_a_test(before: str, behind: str) -> bool:
    """Whether the words around a day, as in `is_of_sampling`, say that a test was made on it."""
    return bool(_OF_A_TEST.search(before) or _TESTED.match(folded(behind[:_FARTHER])))
