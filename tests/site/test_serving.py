"""Serving: whom it answers, what it gives, what it sees, and that nothing is left of it."""

from __future__ import annotations

import http.client
import os
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

import aswired
from aswired.files.skeleton import job_yml
from aswired.site import serving

SOURCE = str(Path(aswired.__file__).parents[1])


class Served:
    """A shop that is served, its pages and what was told."""

    def __init__(self, shop: Path) -> None:
        self.shop, self.log, self.temp = shop, shop / "log", shop / "temp"
        self.temp.mkdir()
        with socket.socket() as free:
            free.bind((serving.HOST, 0))
            self.port = free.getsockname()[1]
        env = {"PYTHONPATH": SOURCE, "PATH": "", "TMPDIR": str(self.temp)}
        with self.log.open("w") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-m", "aswired", "serve", "--port", str(self.port)],
                cwd=shop, env=env, stdout=log, stderr=log,
            )  # fmt: skip
        self.until("Van")

    def ask(self, path: str, host: str = "", method: str = "GET") -> tuple[int, str]:
        connection = http.client.HTTPConnection(serving.HOST, self.port, timeout=20)
        connection.putrequest(method, path, skip_host=True)
        if host != "none":
            connection.putheader("Host", host or f"{serving.HOST}:{self.port}")
        connection.endheaders()
        answer = connection.getresponse()
        body = answer.read().decode(errors="replace")
        connection.close()
        return answer.status, body

    def until(self, words: str, absent: bool = False) -> None:
        """Wait until the start page holds the words, or no longer does."""
        last = time.monotonic() + 60
        while time.monotonic() < last:
            try:
                status, body = self.ask("/index.html")
                if status == 200 and (words in body) != absent:
                    return
            except OSError:
                pass
            time.sleep(0.1)
        raise AssertionError(f"'{words}' {'never went' if absent else 'never came'}: {self.log.read_text()}")


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    shop = tmp_path_factory.mktemp("served")
    for name in ("van", "bus"):
        (shop / "jobs" / name).mkdir(parents=True)
        (shop / "jobs" / name / "job.yml").write_text(job_yml(name))
    found = Served(shop)
    yield found
    found.process.kill()
    found.process.wait()


@pytest.mark.slow
def test_it_answers_to_its_own_names_only(served: Served) -> None:
    port = served.port
    for host in (f"127.0.0.1:{port}", f"localhost:{port}", f"LOCALHOST:{port}"):
        assert served.ask("/index.html", host)[0] == 200, host
    for host in (
        "rebound.example", f"rebound.example:{port}", "127.0.0.1", f"127.0.0.1:{port + 1}", "", "none",
        f"127.0.0.1:{port}.example", f"localhost.example:{port}", f"0.0.0.0:{port}",
    ):  # fmt: skip
        status, body = served.ask("/index.html", host or " ")
        assert status == 403, host
        assert "Van" not in body


@pytest.mark.slow
@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS"])
def test_it_takes_nothing(served: Served, method: str) -> None:
    assert served.ask("/index.html", method=method)[0] == 405


@pytest.mark.slow
@pytest.mark.parametrize(
    "path",
    [
        "/../jobs/van/job.yml", "/%2e%2e/jobs/van/job.yml", "/jobs/../../jobs/van/job.yml", "//etc/passwd", "/%00",
        "/a%00b.html", "/index.html%00", "/%ff%fe", "/.aswired/written.txt", "/%2easwired/written.txt",
        "/jobs/%0d%0aX:%20y", "/" + "a" * 5000, "/index.html/", "/index.html/x", "/nothing.html", "/..%5c..%5cjobs",
        "/jobs/van/job.yml", "/kept.json", "/%e2%80%ae.html",
    ],
)  # fmt: skip
def test_odd_paths_are_404(served: Served, path: str) -> None:
    status, body = served.ask(path)
    assert status == 404
    assert "Traceback" not in body
    assert "job:" not in body


@pytest.mark.slow
def test_a_job_and_the_jobs_folder_moved_away_and_back_are_seen_again(served: Served) -> None:
    shop = served.shop
    served.until("Bus")
    (shop / "jobs" / "bus").rename(shop / "away")
    served.until("Bus", absent=True)
    (shop / "away").rename(shop / "jobs" / "bus")
    served.until("Bus")
    (shop / "jobs").rename(shop / "away")
    time.sleep(4 * serving.LOOK_EVERY_S)
    (shop / "away").rename(shop / "jobs")
    source = shop / "jobs" / "van" / "job.yml"
    source.write_text(source.read_text().replace("job: Van", "job: Bright Van"))
    served.until("Bright Van")
    served.until("Bus")
    assert "Traceback" not in served.log.read_text()


@pytest.mark.slow
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
def test_its_folder_goes_with_it_however_it_ends(how: signal.Signals, tmp_path: Path) -> None:
    (tmp_path / "jobs" / "van").mkdir(parents=True)
    (tmp_path / "jobs" / "van" / "job.yml").write_text(job_yml("van"))
    served = Served(tmp_path)
    assert os.listdir(served.temp)
    served.process.send_signal(how)
    served.process.wait(20)
    until = time.monotonic() + 20
    while os.listdir(served.temp):
        assert time.monotonic() < until, os.listdir(served.temp)
        time.sleep(0.05)
    assert not [path for path in Path(tmp_path / ".cache").rglob("*.json") if "site-" in path.name]
    assert tempfile.gettempdir() != str(served.temp)  # it was asked for there, and nowhere else
