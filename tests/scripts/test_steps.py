"""The steps of scripts/test: a step that runs beside others counts like any other."""

import sys

import pytest

from scripts.steps import Run


def python(text: str) -> list[str]:
    return [sys.executable, "-c", text]


# Waits for the file that the step beside it makes: only together can they end.
MAKE = "import pathlib, sys; pathlib.Path(sys.argv[1]).touch()"
AWAIT = "import pathlib, sys, time\nwhile not pathlib.Path(sys.argv[1]).exists(): time.sleep(0.02)"


def test_a_step_that_fails_is_remembered():
    run = Run()
    run.step("good", python("pass"))
    run.step("bad", python("raise SystemExit(3)"))
    assert run.failed == ["bad"]


def test_a_step_that_fails_beside_another_is_remembered():
    run = Run()
    with run.beside("bad", python("raise SystemExit(3)")):
        run.step("good", python("pass"))
    with run.beside("good too", python("pass")):
        pass
    assert run.failed == ["bad"]


def test_the_two_run_at_the_same_time(tmp_path):
    run, file = Run(), str(tmp_path / "made")
    with run.beside("waits", [*python(AWAIT), file]):
        run.step("makes", [*python(MAKE), file])
    assert run.failed == []


def test_the_output_of_the_one_beside_is_shown_whole_and_last(capfd):
    run = Run()
    text = "import sys; print('line ' * 3, flush=True); print('an error', file=sys.stderr)"
    with run.beside("talks", python(text)):
        run.step("other", python("print('meanwhile')"))
    printed = capfd.readouterr().out
    order = ("begun beside", "meanwhile", "== other: ok", "== talks\n", "line line line", "an error", "== talks: ok")
    places = [printed.index(words) for words in order]
    assert places == sorted(places)


def test_whoever_stops_the_run_stops_the_step_beside_it(tmp_path):
    run = Run()
    started, ended = tmp_path / "started", tmp_path / "ended"
    forever = (
        "import pathlib, sys, time\n"
        "try:\n    pathlib.Path(sys.argv[1]).touch(); time.sleep(60)\n"
        "finally:\n    pathlib.Path(sys.argv[2]).touch()"
    )

    def stopped():
        with run.beside("forever", [*python(forever), str(started), str(ended)]):
            run.step("waits", [*python(AWAIT), str(started)])
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        stopped()
    assert ended.exists()
