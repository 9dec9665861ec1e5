"""What an exercise is said to train, from the credits of its heads."""

from types import SimpleNamespace

from programs.services.exercise_rows import trained


def credits(**named):
    return [
        SimpleNamespace(credit=share, head=SimpleNamespace(group=SimpleNamespace(name=name)))
        for name, share in named.items()
    ]


def test_what_is_direct_comes_first_and_the_rest_is_also():
    assert trained(credits(triceps=0.5, chest=1)) == (["chest"], ["triceps"])


def test_a_row_that_spreads_over_the_back_trains_what_it_trains_most():
    assert trained(credits(lats=0.75, forearms=0.25, traps=0.75)) == (["lats", "traps"], ["forearms"])


def test_what_is_only_indirect_stays_also():
    assert trained(credits(obliques=0.5, chest=0.25)) == ([], ["obliques", "chest"])
    assert trained([]) == ([], [])
