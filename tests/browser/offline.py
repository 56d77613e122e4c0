"""The offline web app in a browser: visited once, then without its host and without a network."""
from __future__ import annotations

import re
from datetime import UTC, datetime
from urllib.parse import urlsplit

from playwright.sync_api import Browser, Worker

from app.exchange.brands.web_shell import POLICY
from tests.browser.driver import PHONE, Walker
from tests.browser.static_site import StaticSite

#: What a browser says on its console when it looks for the host and there is none.
NO_HOST = re.compile(r"ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED|ERR_FAILED|fetching the script")
#: The whole app on a clock that runs fast from an instant on, across starts; never part of what is handed out. From one
#: look at it to the next it moves by no more than `most_ms`, so that a slow machine makes it slower and leaves no gap.
FAST = """
import app.web, time
from datetime import UTC, datetime
from app.device.clock import FastClock

class Fast(FastClock):
    passed = 0.0
    def _passed_ms(self):
        seen, self.seen = getattr(self, "seen", self._since_ns), time.monotonic_ns()
        self.passed += min((self.seen - seen) * self.rate / 1e6, {most_ms})
        return int(self.passed)

fast = Fast({rate})
fast._began = datetime.fromisoformat({began!r}) + {rate} * (datetime.now(UTC) - datetime.fromisoformat({now!r}))
app.web.SystemClock = lambda: fast
app.web.start()
"""
SETTLED = """() => navigator.serviceWorker.ready.then(ready => new Promise(done => {
  const look = () => (ready.active?.state === 'activated' && !ready.installing) ? done(true) : setTimeout(look, 50);
  look(); }))"""
#: Addresses of Python's memory as the browser keeps it for later starts: one or none.
MEMORY = """async () => { const found = [];
  for (const name of await caches.keys())
    for (const one of await (await caches.open(name)).keys()) if (one.url.includes('memory.bin')) found.push(one.url);
  return found; }"""
#: Asks another machine, and gives what the policy refused meanwhile.
ASK_ELSEWHERE = """async () => {
  const refused = [], note = event => refused.push(event.effectiveDirective);
  addEventListener('securitypolicyviolation', note);
  await fetch('https://elsewhere.example/').catch(() => {});
  await new Promise(done => setTimeout(done, 200));
  removeEventListener('securitypolicyviolation', note);
  return refused; }"""
META_POLICY = """() => document.querySelector('meta[http-equiv="Content-Security-Policy"]')?.content"""
KEPT_POLICY = "() => fetch('python-worker.js').then(answer => answer.headers.get('content-security-policy'))"


def fast_from(began: datetime, rate: float, most_ms: float = 1e12) -> str:
    """An entry on a fast clock that stands at that instant now."""
    return FAST.format(rate=rate, began=began.isoformat(), now=datetime.now(UTC).isoformat(), most_ms=most_ms)


class Visitor(Walker):
    """A browser of its own at an app's address, at home with or without a network.

    `proxy` is asked for every machine but this one.
    """

    def __init__(self, browser: Browser, address: str, *, size: tuple[int, int] = PHONE, proxy: str = "") -> None:
        super().__init__(browser, size=size, proxy=proxy)
        self.address = address
        self.asked: list[str] = []
        self.context.on("request", lambda request: self.asked.append(request.url))

    def _note(self, words: str) -> None:
        if not NO_HOST.search(words):
            super()._note(words)

    def visit(self, page: str = "") -> Visitor:
        """Opens the app, at a page such as `#/settings`."""
        self.open(self.address + page)
        return self

    def keep(self) -> Visitor:
        """Waits until the browser has kept every part of the app."""
        self.page.evaluate(SETTLED)
        return self

    def keep_memory(self) -> Visitor:
        """Waits until Python's memory is kept, which is begun some seconds after the first screen."""
        for _ in range(300):
            if self.page.evaluate(MEMORY):
                return self
            self.page.wait_for_timeout(200)
        raise AssertionError("no memory was kept")

    def cut_off(self, site: StaticSite) -> Visitor:
        """The host is gone, and the network too."""
        site.stop()
        self.context.set_offline(True)
        return self

    def start_anew(self, page: str = "") -> Visitor:
        """Closes the app and starts it again, as from the home screen."""
        old = self.page
        self.new_tab()
        old.close()
        return self.visit(page)

    def never_says(self, words: str | re.Pattern[str]) -> Visitor:
        """Nothing of the kind stands on the page, now that it stands still."""
        self.settle()
        assert not self.page.get_by_text(words).or_(self.page.get_by_label(words)).count(), self.spoken()
        return self

    @property
    def python(self) -> Worker:
        """The worker that Python runs in."""
        return next(one for one in self.page.workers if one.url.endswith("python-worker.js"))

    def asked_elsewhere(self) -> list[str]:
        """Whatever this browser asked, or wanted to ask, of any other origin."""
        home = urlsplit(self.address).netloc
        return [url for url in self.asked
                if urlsplit(url).scheme not in ("data", "blob") and urlsplit(url).netloc != home]

    def is_walled_in(self) -> Visitor:
        """The policy stands, for the page and for Python's worker, and what it forbids is refused and noticed."""
        assert self.page.evaluate(META_POLICY) == POLICY == self.page.evaluate(KEPT_POLICY)
        for asking in (self.page, self.python):
            assert set(asking.evaluate(ASK_ELSEWHERE)) == {"connect-src"}
        assert any("elsewhere.example" in words for words in self.errors)
        self.forgive()
        self.asked = [url for url in self.asked if "elsewhere.example" not in url]
        self.outside = [url for url in self.outside if "elsewhere.example" not in url]
        return self
