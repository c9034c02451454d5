"""How the search folds words: text in, words out; and the tables of it, which travel with the index to the browser."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

# What a complaint is full of and what tells nothing. On, off, up and out are not here: "won't turn on" needs them.
_WEAK = (
    "a an the and or but if it its is are was were be been being am i im ive my me we our you your he she they their "
    "this that these those there here of in at to for from by as with into than then so just very really quite has "
    "have had do does did done will would can could should may might get gets got when while after before some any "
    "all also now still again please him her his them what which how why where says said"
)
WEAK = frozenset(_WEAK.split())

# What tells little beside another word, in all its forms: "does not work" is less than "no sound".
_FAINT = (
    "on off up out over down away about around inside itself own thing device unit instrument machine place time way "
    "take make come become go stay keep seem look give want need work show always often sometimes only every each "
    "problem issue fault trouble wrong bad anymore other same one two"
)

NO = "no"
# All are one word to the search: "wont charge", "no charge" and "does not charge" are one complaint.
_NEGATIONS = (
    "no not none nothing never neither nor without wont dont doesnt didnt isnt arent wasnt werent cant cannot couldnt "
    "wouldnt shouldnt hasnt havent hadnt aint unable refuse refuses refused refusing"
)
NEGATIONS = frozenset(_NEGATIONS.split())

# Whole words whose kin no ending tells; those that stand for themselves only look like plurals.
IRREGULAR = {
    "broke": "break", "broken": "break", "froze": "freeze", "frozen": "freeze", "swollen": "swell", "stuck": "stick",
    "fell": "fall", "fallen": "fall", "bent": "bend", "burnt": "burn", "lost": "lose", "spilt": "spill",
    "torn": "tear", "tore": "tear", "worn": "wear", "wore": "wear", "blew": "blow", "blown": "blow", "went": "go",
    "gone": "go", "goes": "go", "came": "come", "took": "take", "taken": "take", "made": "make", "became": "become",
    "heard": "hear", "shook": "shake", "shaken": "shake", "sank": "sink",
    "sunk": "sink", "ran": "run", "dying": "die", "kept": "keep", "disc": "disk", "discs": "disk", "lens": "lens",
    "gas": "gas", "bias": "bias", "canvas": "canvas", "series": "series",
}  # fmt: skip

# Pieces of words that are spelt in two ways, wherever in a word they stand.
SPELT = {
    "colour": "color", "odour": "odor", "vapour": "vapor", "labour": "labor", "harbour": "harbor", "armour": "armor",
    "flavour": "flavor", "behaviour": "behavior", "gray": "grey", "centre": "center", "metre": "meter",
    "litre": "liter", "fibre": "fiber", "calibre": "caliber", "labell": "label", "cancell": "cancel",
    "modell": "model", "signall": "signal", "levell": "level", "swivell": "swivel", "aluminum": "aluminium",
    "sulphur": "sulfur", "mould": "mold", "licence": "license", "practise": "practice", "analogue": "analog",
    "catalogue": "catalog", "dialogue": "dialog", "draught": "draft", "alyz": "alys",
}  # fmt: skip

# (a pattern of the whole word, how many letters to cut, what to add): the first that fits is used, until none fits.
# Python and the browser read these patterns alike; keep to what both know.
ENDINGS = (
    ("....ize$", 2, "se"),  # initialize -> initialise; not size
    ("....izes$", 3, "ses"),
    ("....ized$", 3, "sed"),
    ("....izing$", 4, "sing"),
    ("....izer$", 3, "ser"),
    ("....ization$", 6, "s"),
    ("....isation$", 5, ""),
    ("...[^aeiou]ation$", 3, ""),  # calibration -> calibrat, which calibrate gives too
    ("^.ie[sd]$", 1, ""),  # dies -> die
    ("ie[sd]$", 3, "y"),  # batteries, dried -> battery, dry
    ("(ss|x|ch|sh|zz)es$", 2, ""),  # switches -> switch
    ("..[^sui]s$", 1, ""),  # charges -> charge; not glass, status, axis
    ("ued$", 1, ""),  # glued -> glue
    ("uing$", 3, "e"),
    ("^[^aeiou]*[aeiouy][^aeiouwxy]ed$", 1, ""),  # taped -> tape
    ("^[^aeiou]*[aeiouy][^aeiouwxy]ing$", 3, "e"),  # taping -> tape
    ("^(?=.{5,}$).*[aeiouy].*[^e]ed$", 2, ""),  # failed -> fail; not speed
    ("^(?=.{6,}$).*[aeiouy].*ing$", 3, ""),  # failing -> fail; not string
    ("....ness$", 4, ""),  # coldness -> cold; not harness
    ("...[^bp]ly$", 2, ""),  # slowly -> slow; not assembly
    ("[aeiou]([bdgmnp])\\1y$", 2, ""),  # foggy -> fog
    ("..([bdfgkmnprtv])\\1$", 1, ""),  # tapp -> tap
    ("...[^e]e$", 1, ""),  # charge -> charg, which charging gives too
)

_APOSTROPHES = dict.fromkeys(map(ord, "'\u2019\u2018\u02bc`\u00b4"))
_UNITS = str.maketrans({"\u03c9": "ohm", "\u03bc": "u"})
_WORD = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_][^\W_]*")
_JOINED = re.compile(r"[^\W\d_]+(?:-[^\W\d_]+)+")
_OTHERWISE = re.compile("|".join(SPELT))
_ENDINGS = tuple((re.compile(pattern), cut, add) for pattern, cut, add in ENDINGS)


def plain(text: str) -> str:
    """Return `text` in small letters, without accents and apostrophes; ohm and micro as one would type them."""
    if text.isascii():
        return text.translate(_APOSTROPHES).lower()
    letters = unicodedata.normalize("NFKD", text.translate(_APOSTROPHES))
    return "".join(c for c in letters if not unicodedata.category(c).startswith("M")).lower().translate(_UNITS)


def tokens(text: str) -> tuple[str, ...]:
    """Return the words and numbers of `text`, in order; "re-tin" also gives "retin", at the end."""
    small = plain(text)
    joined = _JOINED.findall(small) if "-" in small else ()
    return (
        *(spelt(word.replace(",", ".")) for word in _WORD.findall(small)),
        *(spelt(word.replace("-", "")) for word in joined),
    )


@cache
def spelt(word: str) -> str:
    """Return `word` in the one spelling that the search keeps: colour as color."""
    return _OTHERWISE.sub(lambda other: SPELT[other[0]], word)


@cache
def stem(word: str) -> str:
    """Return what `word` shares with its kin: charging, charges and charge give one; negations give NO."""
    if word in NEGATIONS:
        return NO
    while True:
        kin = IRREGULAR.get(word) or _shorter(word)
        if kin == word:
            return word
        word = kin


def tables() -> dict[str, object]:
    """Return the tables for the browser, which folds the words that are typed by the same rules."""
    return {
        "weak": " ".join(sorted(WEAK)),
        "faint": " ".join(sorted({stem(word) for word in _FAINT.split()})),
        "no": " ".join(sorted(NEGATIONS)),
        "irregular": IRREGULAR,
        "spelt": SPELT,
        "endings": ENDINGS,
    }


def _shorter(word: str) -> str:
    """Return `word` with its ending changed by the first rule that fits, or as it is."""
    for pattern, cut, add in _ENDINGS:
        if pattern.search(word):
            return word[:-cut] + add
    return word
