"""What one likes is kept beside the journal, whole or not at all."""

from __future__ import annotations

import json

import pytest

from guide.settings import LIKED, from_environment, keep


def test_settings_are_shown_and_changed(call, home) -> None:
    """One that is changed holds the next time; all are told."""
    assert json.loads(call("settings", "--json").out) == {n: may[0] for n, may in LIKED.items()}
    assert call("settings", "look", "light").code == 0
    assert json.loads(call("settings", "--json").out)["look"] == "light"
    assert from_environment().look == "light"


@pytest.mark.parametrize(("name", "value"), [("hue", "red"), ("look", "red"), ("look", "")])
def test_what_cannot_be_chosen_is_one_sentence_and_changes_nothing(call, home, name, value) -> None:
    """Neither a name nor a value that there is none of."""
    told = call("settings", name, value)
    assert told.code == 2
    assert told.in_one_sentence
    assert not (home / "settings.json").exists()


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "null", '{"look": "red"}', '{"look": 1}', '{"hue": "red"}', "\x00",
             pytest.param("[" * 100000, id="deep")]
)  # fmt: skip
def test_a_file_that_cannot_be_read_leaves_the_usual_settings_and_is_told(home, text) -> None:
    """The next choice writes it whole; what stood there is set aside."""
    home.mkdir()
    (home / "settings.json").write_text(text)
    here = from_environment()
    assert here.damaged
    assert {name: getattr(here, name) for name in LIKED} == {n: may[0] for n, may in LIKED.items()}
    assert not keep(here, "motion", "still").damaged
    assert (home / "settings.unread.json").read_text() == text
    again = from_environment()
    assert (again.damaged, again.motion) == (False, "still")


def test_no_colour_of_the_environment_comes_first(home) -> None:
    """Whoever set NO_COLOR sees none, whatever is kept; blank counts for nothing."""
    keep(from_environment(), "look", "light")
    env = {"SPINDLESIDE_HOME": str(home)}
    assert from_environment({**env, "NO_COLOR": "1"}).look == "no-colour"
    assert from_environment({**env, "NO_COLOR": ""}).look == "light"


@pytest.mark.parametrize(
    ("more", "name", "value"),
    [({"NO_COLOR": "1"}, "look", "no-colour"), ({"SPINDLESIDE_LOOK": "dark"}, "look", "dark"),
     ({"SPINDLESIDE_MOTION": "still"}, "motion", "still"),
     ({"SPINDLESIDE_LANGUAGE": "de_AT"}, "language", "de-AT")],
)  # fmt: skip
def test_the_environment_comes_first_and_never_gets_into_the_file(home, more, name, value) -> None:
    """Another setting chosen meanwhile leaves what was kept as it was."""
    keep(from_environment(), "look", "light")
    here = from_environment({"SPINDLESIDE_HOME": str(home), **more})
    assert getattr(here, name) == value
    assert getattr(keep(here, "detail", "brief"), name) == value
    assert json.loads((home / "settings.json").read_text()) == {"detail": "brief", "look": "light"}
    assert getattr(keep(here, name, LIKED[name][-1]), name) == value


def test_a_variable_that_says_nonsense_counts_for_nothing_and_is_told(
    call, home, monkeypatch
) -> None:
    """One sentence names it; what is kept stands."""
    keep(from_environment(), "look", "light")
    monkeypatch.setenv("SPINDLESIDE_LOOK", "mauve")
    here = from_environment()
    assert (here.look, here.unfit) == ("light", ("SPINDLESIDE_LOOK",))
    told = call("settings")
    assert told.code == 2
    assert told.in_one_sentence
    assert "SPINDLESIDE_LOOK" in told.err


def test_two_programs_keep_what_the_other_chose(home) -> None:
    """Each changes its one setting in the file as it stands then."""
    one, other = from_environment(), from_environment()
    keep(one, "look", "light")
    keep(other, "motion", "still")
    again = from_environment()
    assert (again.look, again.motion) == ("light", "still")


@pytest.mark.parametrize(
    ("says", "shown"),
    [("15;0", "dark"), ("0;15", "light"), ("0;default;15", "light"), ("", "dark"), ("x", "dark")],
)
def test_a_look_as_the_terminal_says(home, says, shown) -> None:
    """By `COLORFGBG`, which ends in the number of the ground."""
    keep(from_environment(), "look", "terminal")
    assert from_environment({"SPINDLESIDE_HOME": str(home), "COLORFGBG": says}).shown == shown


def test_a_folder_that_cannot_be_written_is_one_sentence(call, home, monkeypatch) -> None:
    """Nothing is lost, and no traceback is shown."""

    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("pathlib.Path.write_text", full)
    told = call("settings", "look", "light")
    assert told.code in (1, 2)
    assert told.in_one_sentence
