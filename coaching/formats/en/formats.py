"""How dates and times are written where a page does not say: the day first, as everywhere else on the pages."""

DATE_FORMAT = "j M Y"
DATETIME_FORMAT = "j M Y H:i"
TIME_FORMAT = "H:i"
MONTH_DAY_FORMAT = "j F"
SHORT_DATE_FORMAT = "j M Y"
SHORT_DATETIME_FORMAT = "j M Y H:i"
FIRST_DAY_OF_WEEK = 1
