import asyncio
import signal
import threading

from starlette.responses import PlainTextResponse

from claimpack.phone.address import listening
from claimpack.phone.serving import Ending, serve


def test_it_ends_by_itself_when_its_time_is_over():
    waiting = listening("127.0.0.1", None)
    serve(PlainTextResponse("there"), waiting, Ending(), 0)
    assert waiting.fileno() == -1


def test_one_that_was_ended_before_it_began_ends_at_once():
    ending = Ending()
    ending()
    waiting = listening("127.0.0.1", None)
    # whoever did not end would wait for an hour
    rescue = threading.Timer(20, signal.raise_signal, (signal.SIGINT,))
    rescue.start()
    serve(PlainTextResponse("there"), waiting, ending, 3600)
    is_in_time = rescue.is_alive()
    rescue.cancel()
    assert (waiting.fileno(), is_in_time) == (-1, True)


class Interrupted(Ending):
    """Somebody presses Ctrl-C; where that ends nothing it is ended all the same, by and by."""

    def __call__(self):
        asyncio.get_running_loop().call_later(5, super().__call__)
        signal.raise_signal(signal.SIGINT)


def test_ctrl_c_ends_it_as_everything_else_does():
    ending = Interrupted()
    serve(PlainTextResponse("there"), listening("127.0.0.1", None), ending, 0)
    assert not ending.is_wanted.is_set()
