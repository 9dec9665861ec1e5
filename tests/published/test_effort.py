"""RPE read as repetitions in reserve."""

import pytest

from periodization.strength import rpe_to_rir
from tests.published.tables import number, table


@pytest.mark.parametrize("row", table("effort", "effort-1"), ids=lambda r: f"{r['standing']}-RPE{r['RPE']}")
def test_rpe_to_rir(row):
    found = rpe_to_rir(float(row["RPE"]))
    low, high, point = number(row["RIR from"]), number(row["RIR to"]), number(row["read as"])
    if low is None:
        assert found is None
    else:
        assert (found.low, found.high, found.point) == (low, high, point)


@pytest.mark.parametrize("rpe", [7, 8, 9, 10])
def test_whole_rpe_is_ten_minus_rir(rpe):
    """SOURCED: Zourdos 2016."""
    assert rpe_to_rir(rpe).point == 10 - rpe


@pytest.mark.parametrize("rpe", [6.5, 6, 5.5, 5])
def test_low_rpe_is_never_one_number(rpe):
    """SOURCED-2nd: 5-6 stands for 4-6 RIR."""
    assert rpe_to_rir(rpe).point is None
