import pytest

from claimpack.phone.session import PageSession, device_in


def test_keys_are_given_to_as_many_phones_as_may_take_part():
    session = PageSession("192.0.2.7:8617", 30, 2, is_https=False)
    keys = [session.join() for _ in range(3)]
    assert ([bool(key) for key in keys], session.knows(keys[1]), session.knows("")) == (
        [True, True, False],
        True,
        False,
    )


BROWSERS = {"Mozilla/5.0 (iPhone; CPU": "iPhone", "(Linux; Android 15": "Android", "curl/8\x1b[2J": "a device"}


@pytest.mark.parametrize(("told", "device"), BROWSERS.items())
def test_a_device_is_told_in_one_of_our_own_words(told, device):
    assert device_in(told) == device
