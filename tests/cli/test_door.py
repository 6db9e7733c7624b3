"""The door of the server: what is sent goes out at once."""

from __future__ import annotations

import asyncio
import socket
from concurrent.futures import ThreadPoolExecutor

from topheavy.cli.listening import listening, open_door


def test_no_part_of_an_answer_waits_for_the_other_side() -> None:
    found: list[int] = []

    class Greeter(asyncio.Protocol):
        def connection_made(self, transport: asyncio.BaseTransport) -> None:
            own = transport.get_extra_info("socket")
            found.append(own.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            transport.close()

    async def greet() -> None:
        door = open_door(listening("127.0.0.1", 0, [], None, None))
        server = await asyncio.get_running_loop().create_server(Greeter, sock=door)
        async with server:
            _, writer = await asyncio.open_connection(*door.getsockname())
            while not found:
                await asyncio.sleep(0.01)
            writer.close()
            await writer.wait_closed()

    # In a thread of its own: a browser that is driven in this process has a loop here already.
    with ThreadPoolExecutor(1) as pool:
        pool.submit(lambda: asyncio.run(asyncio.wait_for(greet(), 20))).result()
    assert found == [1]
