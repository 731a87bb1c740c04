from claimpack.core.contradiction import Clash, clashes_in_words, contradiction

CLASH = Clash("{} 2026-02-20 lies before {} 2026-03-14", ("failed", "purchased"))


def test_keys_are_called_by_their_names():
    said = clashes_in_words([CLASH], lambda key: f"--{key}")
    assert said == "--failed 2026-02-20 lies before --purchased 2026-03-14"


def test_every_clash_is_told():
    assert clashes_in_words([CLASH, CLASH], str).count("lies before") == 2


def test_a_refusal_says_it_with_the_keys():
    assert contradiction([CLASH]).message() == "failed 2026-02-20 lies before purchased 2026-03-14"
