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
    serve(PlainTextResponse("there"), waiting, ending, 3600)
    assert waiting.fileno() == -1
