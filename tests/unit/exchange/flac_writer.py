"""FLAC files for tests: one channel of 16 bits, 800 samples a second, verbatim (RFC 9639, 9.2.2), with tags."""

from __future__ import annotations

from collections.abc import Sequence

RATE, BLOCK = 800, 16
NAME = b"Ilka Marovand"


def remainder(content: bytes, polynomial: int, bits: int) -> int:
    """Return the check of a content, bit by bit as RFC 9639 words it: the polynomial from zero, highest bit first."""
    value, top = 0, 1 << bits
    for byte in content:
        value ^= byte << (bits - 8)
        for _bit in range(8):
            value <<= 1
            if value & top:
                value ^= top | polynomial
    return value


def coded(number: int) -> bytes:
    """Return a number of a frame; below 65,536 it is written as UTF-8 writes a letter of that number."""
    return chr(number).encode("utf-8", "surrogatepass")


def frame(number: int, samples: Sequence[int], *, counts_samples: bool = False) -> bytes:
    head = bytes([0xFF, 0xF9 if counts_samples else 0xF8, 7 << 4, 4 << 1])
    head += coded(number) + (len(samples) - 1).to_bytes(2, "big")
    head += bytes([remainder(head, 0x07, 8)])
    body = b"\2" + b"".join(one.to_bytes(2, "big", signed=True) for one in samples)
    return head + body + remainder(head + body, 0x8005, 16).to_bytes(2, "big")


def flac_file(count: int, *, counts_samples: bool = False, told: int | None = None) -> bytes:
    """Return a file of so many samples, each the number of its block; ``told`` is how many its head promises."""
    comment = b"\4\0\0\0test" + (1).to_bytes(4, "little") + (len(NAME) + 7).to_bytes(4, "little") + b"ARTIST=" + NAME
    packed = (RATE << 44 | 15 << 36 | (count if told is None else told)).to_bytes(8, "big")
    info = BLOCK.to_bytes(2, "big") * 2 + bytes(6) + packed + b"\7" * 16
    head = b"".join(
        bytes([kind]) + len(content).to_bytes(3, "big") + content for kind, content in ((0, info), (0x84, comment))
    )
    starts = range(0, count, BLOCK)
    return (
        b"fLaC"
        + head
        + b"".join(
            frame(start if counts_samples else start // BLOCK, block_of(start, count), counts_samples=counts_samples)
            for start in starts
        )
    )


def block_of(start: int, count: int) -> list[int]:
    return [start // BLOCK] * min(BLOCK, count - start)
