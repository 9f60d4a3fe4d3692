"""Who the page answers: its own browser alone, by its own address, and what that may do with an answer."""

from __future__ import annotations

import asyncio
import http.client
import json
import re
from collections.abc import Iterator
from urllib.parse import urlsplit

import pytest
from websockets.asyncio.client import connect
from websockets.exceptions import InvalidStatus

from tests.page.conftest import page_started

GOOD = {"Sec-Fetch-Site": "same-origin"}


def fetched(
    address: str, path: str, headers: dict[str, str] | None = None, method: str = "GET"
) -> tuple[int, dict[str, str], bytes]:
    """The status, headers and body of an answer."""
    place = urlsplit(address)
    line = http.client.HTTPConnection(place.hostname or "", place.port, timeout=30)
    line.request(method, path, headers=headers or {})
    answer = line.getresponse()
    return answer.status, {key.lower(): value for key, value in answer.getheaders()}, answer.read()


def key_of(address: str) -> dict[str, str]:
    """The cookie that a browser has once it was let in."""
    return {"Cookie": f"plainseam={urlsplit(address).query.partition('=')[2]}"}


def test_the_key_lets_a_browser_in_and_leaves_the_address(served: str) -> None:
    place = urlsplit(served)
    status, headers, _ = fetched(served, f"{place.path}?{place.query}")
    assert (status, headers["location"]) == (303, "/")
    assert re.fullmatch(r"plainseam=[\w-]{32,}; Path=/; Max-Age=\d+; HttpOnly; SameSite=Strict", headers["set-cookie"])
    assert fetched(served, "/", key_of(served))[0] == 200


@pytest.mark.parametrize(
    ("language", "said"), [("de-AT,de;q=0.8", "Lesezeichen"), ("fr", "bookmark"), ("", "bookmark")]
)
def test_who_comes_by_a_bookmark_is_told_how_to_open_the_page(served: str, language: str, said: str) -> None:
    asked = {"Cookie": "", "Accept": "text/html,*/*;q=0.8", "Accept-Language": language}
    status, headers, body = fetched(served, "/", asked)
    assert status == 401 and headers["content-type"].startswith("text/html")
    assert (
        said in body.decode()
        and "<code>" not in body.decode()
        and "default-src 'none'" in headers["content-security-policy"]
    )


@pytest.mark.parametrize(
    ("path", "more", "status"),
    [
        ("/", {"Cookie": ""}, 401),
        ("/", {"Cookie": "plainseam=guessed"}, 401),
        ("/enter?key=guessed", {"Cookie": ""}, 401),
        ("/", {"Host": "elsewhere.example"}, 421),
        ("/words/en.json", {"Origin": "https://elsewhere.example"}, 403),
        ("/words/en.json", {"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}, 403),
        ("/words/xx.json", {}, 404),
        ("/words/..%2fen.json", {}, 404),
        ("/static/..%2fhand.py", {}, 404),
        ("/static/%2e%2e/hand.py", {}, 404),
        ("/made/guessed/0", {}, 404),
    ],
)
def test_what_is_not_let_through(served: str, path: str, more: dict[str, str], status: int) -> None:
    found, _, body = fetched(served, path, key_of(served) | more)
    assert found == status
    assert b"Traceback" not in body


def test_nothing_is_sent_to_the_page_by_a_form(served: str) -> None:
    assert fetched(served, "/", key_of(served), "POST")[0] == 405


def test_an_answer_runs_nothing_inline_and_nothing_from_elsewhere(served: str) -> None:
    seen = [fetched(served, "/", key_of(served)) for _ in range(2)]
    policies = [headers["content-security-policy"] for _, headers, _ in seen]
    nonces = [re.findall(r"'nonce-([^']+)'", policy) for policy in policies]
    assert nonces[0] != nonces[1]
    for policy, nonce, (_, headers, body) in zip(policies, nonces, seen, strict=True):
        assert "unsafe" not in policy
        assert "default-src 'none'" in policy and "frame-ancestors 'none'" in policy
        assert headers["x-content-type-options"] == "nosniff"
        assert f'data-nonce="{nonce[0]}"'.encode() in body
        assert not re.search(rb"<[^>]+ (style|on\w+)=", body)
        assert not re.search(rb"(src|href)=\"(https?:)?//", body)


def _asked(address: str, headers: dict[str, str], said: list[str]) -> list[dict[str, object]]:
    """What comes back over a line for each of these messages."""

    async def talk() -> list[dict[str, object]]:
        place = urlsplit(address)
        async with connect(f"ws://{place.netloc}/live", additional_headers=headers, max_size=None) as line:
            for text in said:
                await line.send(text)
            return [json.loads(await asyncio.wait_for(line.recv(), 60)) for _ in said]

    return asyncio.run(talk())


def origin_of(address: str) -> dict[str, str]:
    """What a browser says of the page that opens a line."""
    return {"Origin": f"http://{urlsplit(address).netloc}"}


def test_the_line_is_open_to_its_own_page_alone(served: str) -> None:
    (said,) = _asked(served, key_of(served) | origin_of(served), ['{"n": 1, "verb": "shelf"}'])
    assert "marlpit" in str(said["gave"])
    for headers in ({}, key_of(served), origin_of(served), key_of(served) | {"Origin": "https://elsewhere.example"}):
        with pytest.raises(InvalidStatus):
            _asked(served, headers, ['{"n": 1, "verb": "shelf"}'])


def test_odd_messages_leave_the_line_open(served: str) -> None:
    odd = ["", "[]", "7", '{"n": "x"}', '{"verb": "shelf"}', '{"n": 1e999}', '{"n": null}', "[" * 5000]

    async def talk() -> dict[str, object]:
        place = urlsplit(served)
        headers = key_of(served) | origin_of(served)
        async with connect(f"ws://{place.netloc}/live", additional_headers=headers) as line:
            for text in odd:
                await line.send(text)
            await line.send('{"n": 5, "verb": "no such", "asked": "what"}')
            while True:
                said = json.loads(await asyncio.wait_for(line.recv(), 60))
                if said["n"] == 5:
                    return dict(said)

    assert "not known" in str(asyncio.run(talk())["notes"])


# ---- for others, behind a proxy

PUBLIC = "https://seams.example"


@pytest.fixture(scope="module")
def public(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address at which a proxy finds a public page."""
    process, said = page_started(tmp_path_factory.mktemp("public"), "--public", PUBLIC, "--port", "0")
    assert said == PUBLIC
    assert process.stdout
    listens = re.search(r"http://\S+", process.stdout.readline())
    assert listens
    yield listens[0]
    process.terminate()
    process.wait(20)


def test_each_visitor_of_a_public_page_has_a_cookie_of_her_own(public: str) -> None:
    host = {"Host": "seams.example"}
    cookies = [fetched(public, "/", host)[1]["set-cookie"] for _ in range(2)]
    assert cookies[0] != cookies[1]
    assert all("Secure" in cookie and "HttpOnly" in cookie for cookie in cookies)
    assert "set-cookie" not in fetched(public, "/", host | {"Cookie": cookies[0].partition(";")[0]})[1]
    assert fetched(public, "/")[0] == 421
    assert fetched(public, "/health")[0] in (200, 503)


def test_no_visitor_finds_what_another_has_made(public: str) -> None:
    mine, hers = ({"Cookie": f"plainseam={name * 24}", "Host": "seams.example", "Origin": PUBLIC} for name in "ab")
    ask = {"garment": "roundhouse", "sizes": ["M"], "pages": ["a4"], "wanted": ["pattern"], "widths": []}
    (said,) = _asked_by_host(public, mine, [json.dumps({"n": 1, "verb": "take", "asked": ask})])
    (file,) = said["files"]  # type: ignore[misc]
    path = str(file["href"])
    assert fetched(public, path, mine)[2].startswith(b"%PDF")
    assert fetched(public, path, hers)[0] == 404
    (kept,) = _asked_by_host(public, mine, ['{"n": 2, "verb": "keep_person", "asked": {"name": "Ines"}}'])
    assert "keeps nobody" in str(kept["notes"])


def _asked_by_host(address: str, headers: dict[str, str], said: list[str]) -> list[dict[str, object]]:
    """The same over a line that a proxy opens: it hands the browser's own Host on."""

    async def talk() -> list[dict[str, object]]:
        place = urlsplit(address)
        more = {key: value for key, value in headers.items() if key != "Host"}
        async with connect(
            f"ws://{headers['Host']}/live", host=place.hostname, port=place.port, additional_headers=more, max_size=None
        ) as line:
            for text in said:
                await line.send(text)
            found = []
            while len(found) < len(said):
                answer = json.loads(await asyncio.wait_for(line.recv(), 120))
                found += [] if "step" in answer else [answer]
            return found

    return asyncio.run(talk())
