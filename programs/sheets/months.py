"""The names of months."""

from programs.sheets.names import plain

# The first letters by which English, German, French, Spanish, Italian and Dutch spreadsheets show a month.
_MONTHS = (
    "jan ene gen januar january janv",
    "feb fev febr februar february fevr",
    "mar maa mrz mars march marz maart",
    "apr avr abr april",
    "may mai mei mag mayo maggio",
    "jun juin giu june juni",
    "jul juil lug july juli",
    "aug aou ago august aout agosto",
    "sep sept set september",
    "oct okt ott october oktober",
    "nov november",
    "dec dez dic dicembre december dezember",
)
MONTHS = {name: number for number, names in enumerate(_MONTHS, 1) for name in names.split()}


def month_number(name: str) -> int | None:
    """Return 1 to 12 for a month's name or its first letters, None for another word."""
    return MONTHS.get(plain(name))
