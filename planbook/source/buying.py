"""What cutting.yaml, finishing.yaml and price files name: stock, parts, hardware, finishes."""

from __future__ import annotations

from collections.abc import Iterator

from planbook.source.content import Content
from planbook.source.findings import Finding
from planbook.source.known import in_every_market, known, known_parts


def check_buying(content: Content) -> Iterator[Finding]:
    """Names that lead nowhere. A price of something that its market does not have is one too."""
    for key in content.cutting.stock:
        yield from in_every_market("stock-unknown", "stock", content, key)
    for group in content.cutting.together.values():
        yield from known_parts(content, group.parts)
    for use in content.finishing.values():
        yield from in_every_market("finish-unknown", "finishes", content, use.item)
        yield from known_parts(content, use.leave_out)
    for market, prices in content.prices.items():
        table, where = content.markets[market], f"the table of the market {market}"
        yield from known("stock-unknown", "stock", prices.stock, table.stock, where)
        yield from known("hardware-unknown", "hardware", prices.hardware, table.hardware, where)
        yield from known("finish-unknown", "finish", prices.finishes, table.finishes, where)
