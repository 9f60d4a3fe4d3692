"""The help lists every verb once, under those who use it."""

from draft.command.group import USERS, commands
from tests.command.run import Runner


def test_every_verb_stands_under_one_heading():
    listed = [name for names in USERS.values() for name in names]
    assert sorted(listed) == sorted(commands.every())


def test_the_help_shows_the_headings_in_order_with_whole_sentences(run: Runner):
    text = run("--help").out
    places = [text.index(f"{user}:") for user in USERS]
    assert places == sorted(places) and "..." not in text.partition("Options:")[2]
