from __future__ import annotations

from running import claimpack


def test_help_of_a_command_is_what_the_command_shows_itself():
    assert claimpack("help", "hold", "send").out == claimpack("hold", "send", "--help").out


def test_help_alone_is_the_overview():
    assert claimpack("help").out == claimpack("--help").out


def test_help_of_a_command_that_is_not_there_names_the_nearest():
    ran = claimpack("help", "hold", "sent")
    assert (ran.code, "'send'" in ran.err) == (2, True)


def test_help_takes_no_words_behind_a_command():
    assert claimpack("help", "check", "26-0041").code == 2


def test_a_command_that_takes_no_further_words_says_so():
    said = claimpack("help", "check", "26-0041").err, claimpack("help", "hold", "sent").err
    assert ["takes no further words" in each for each in said] == [True, False]


def test_the_manual_page_has_commands_of_families_and_those_that_stand_alone():
    page = claimpack("help", "--man").out.replace("\\", "")
    assert ["claimpack check CLAIM" in page, "claimpack hold send" in page] == [True, True]
