import pytest

from claimpack.core.values.wording.lines import in_lines, unbroken


@pytest.mark.parametrize(
    ("said", "kept"),
    [
        ("Of 1.00 USD", "Of 1.00~USD"),
        ("12 claims for 3 CAD", "12~claims for 3~CAD"),
        ("3 parts, 1 day, 7 times, 1 payment", "3~parts, 1~day, 7~times, 1~payment"),
        ("95 % of units", "95~% of units"),
        ("claim 26-0001 of 2026", "claim 26-0001 of 2026"),
        ("5 USDX and 5 usd", "5 USDX and 5 usd"),
        ("2 partners", "2 partners"),
        ("on 17 September 2026", "on 17~September~2026"),
        ("on September 17, 2026", "on September~17,~2026"),
        ("el 2 de marzo de 2026", "el 2~de marzo~de~2026"),
        ("one · another", "one~· another"),
        ("leaks 2 drops/min at 9 l/min", "leaks 2~drops/min at 9~l/min"),
        ("RCW 19.98.170; 49 CFR 173.220", "RCW~19.98.170; 49~CFR~173.220"),
        ("15 U.S.C. 2304; S.C. Code 39-59-100", "15~U.S.C.~2304; S.C. Code~39-59-100"),
        ("§ 12, §§ 3 and s. 4, Art. 3, No. 5, section 2, p. 4", "§~12, §§~3 and s.~4, Art.~3, No.~5, section~2, p.~4"),
    ],
)
def test_a_number_stays_on_a_line_with_what_it_counts(said, kept):
    assert unbroken(said, "~") == kept


def test_lines_of_plain_characters_hold_the_blanks_that_were_typed():
    assert in_lines("It is due under RCW 19.98.170 now", 22) == ["It is due under", "RCW 19.98.170 now"]


@pytest.mark.parametrize("word", ["HC70-118-20417", "Antriebskettenrad", "spare-parts-kit"])
def test_a_word_longer_than_the_line_is_not_broken(word):
    assert in_lines(f"the {word}", 8) == ["the", word]
