"""One session of the page: an address nobody can guess, and which phones take part."""

from __future__ import annotations

import secrets
import threading

_TOKEN_BYTES = 16
_LONGEST_NAME = 60


class PageSession:
    """The secrets of one session; they end with it."""

    def __init__(self, host: str, minutes: int, devices: int, *, is_https: bool) -> None:
        self.host = host
        self.seconds = minutes * 60
        self.is_https = is_https
        self.token = secrets.token_urlsafe(_TOKEN_BYTES)
        self._free = devices
        self._keys: list[str] = []
        self._lock = threading.Lock()

    @property
    def origin(self) -> str:
        """Scheme, address and port, as a browser writes where a request comes from."""
        return f"{'https' if self.is_https else 'http'}://{self.host}"

    @property
    def url(self) -> str:
        """The address of the page."""
        return f"{self.origin}/{self.token}/"

    def is_token(self, said: str) -> bool:
        """Whether a text is the session's secret."""
        return secrets.compare_digest(said.encode(), self.token.encode())

    def knows(self, key: str) -> bool:
        """Whether a key was given to a phone of this session."""
        return any(secrets.compare_digest(key.encode(), each.encode()) for each in self._keys)

    def join(self) -> str:
        """A key for one more phone; empty where no more may take part."""
        with self._lock:
            if not self._free:
                return ""
            self._free -= 1
            self._keys.append(secrets.token_urlsafe(_TOKEN_BYTES))
            return self._keys[-1]


def device_in(user_agent: str) -> str:
    """What kind of device a browser says it runs on, in few words."""
    known = ("iPhone", "iPad", "Android", "Windows", "Macintosh", "Linux")
    found = next((name for name in known if name in user_agent), "a device")
    return found[:_LONGEST_NAME]
