"""A plain HTTP/1.1 client over kept connections: light enough that what is timed is the server."""

import asyncio
import gzip
import time
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Answer:
    status: int
    headers: dict[str, str]
    body: bytes
    seconds: float

    def text(self) -> str:
        packed = self.headers.get("content-encoding") == "gzip"
        return (gzip.decompress(self.body) if packed else self.body).decode()


def request(path: str, cookie: str) -> bytes:
    return (
        f"GET {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: studbay={cookie}\r\n"
        "Accept: text/html\r\nAccept-Encoding: gzip\r\n\r\n"
    ).encode()


async def read_answer(reader: asyncio.StreamReader) -> tuple[int, dict[str, str], bytes]:
    head = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1").split("\r\n")
    headers = {name.lower(): value for name, _, value in (line.partition(": ") for line in head[1:]) if name}
    if headers.get("transfer-encoding") == "chunked":
        body = b""
        while size := int(await reader.readline(), 16):
            body += (await reader.readexactly(size + 2))[:-2]
        await reader.readexactly(2)
    else:
        body = await reader.readexactly(int(headers.get("content-length", 0)))
    return int(head[0].split()[1]), headers, body


async def ask_many(port: int, path: str, cookie: str, count: int) -> list[Answer]:
    """`count` requests one after the other on one connection."""
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    sent, answers = request(path, cookie), []
    for _ in range(count):
        begun = time.perf_counter()
        writer.write(sent)
        status, headers, body = await read_answer(reader)
        answers.append(Answer(status, headers, body, time.perf_counter() - begun))
    writer.close()
    return answers


async def together(port: int, path: str, cookie: str, connections: int, each: int) -> list[Answer]:
    """The same over several connections at once."""
    parts = await asyncio.gather(*(ask_many(port, path, cookie, each) for _ in range(connections)))
    return [answer for part in parts for answer in part]


def ask(port: int, path: str, cookie: str, connections: int = 1, each: int = 1) -> list[Answer]:
    answers = asyncio.run(together(port, path, cookie, connections, each))
    bad = {answer.status for answer in answers} - {200}
    if bad:
        raise SystemExit(f"{path} answered {bad}")
    return answers
