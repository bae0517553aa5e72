"""What shuts the network for every other test is itself held: nothing leaves this machine, and nobody is asked."""

from __future__ import annotations

import socket

import pytest

ELSEWHERE = "192.0.2.1"  # for documentation, RFC 5737: nobody has it
ELSEWHERE_6 = "2001:db8::1"  # for documentation, RFC 3849


@pytest.mark.parametrize(
    ("family", "address"),
    [(socket.AF_INET, (ELSEWHERE, 80)), (socket.AF_INET6, (ELSEWHERE_6, 80)), (socket.AF_INET, ("0.0.0.0", 80))],  # noqa: S104 - nothing is bound
)
@pytest.mark.parametrize("way", ["connect", "connect_ex"])
def test_no_test_reaches_another_machine(family: socket.AddressFamily, address: tuple[str, int], way: str) -> None:
    with socket.socket(family) as one, pytest.raises(ConnectionRefusedError, match="A test tried to reach"):
        getattr(one, way)(address)


def test_this_machine_is_reached() -> None:
    with socket.create_server(("127.0.0.1", 0)) as server, socket.create_connection(server.getsockname()) as one:
        assert one.getpeername() == server.getsockname()
