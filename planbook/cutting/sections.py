"""The sections into which the first cuts part a sheet or board, in the order in which they are cut off."""

from __future__ import annotations

from planbook.cutting.filling import Node, Sheet


def longest_first(sheet: Sheet) -> Sheet:
    """Sections with pieces from the largest to the smallest, from the clear end on; free ones joined at the far end."""
    across = sheet.root.across
    if not across:
        return sheet
    held = [each for each in _sections(sheet.root) if any(leaf.kind >= 0 for leaf in each.leaves())]
    root = Node(0, 0, sheet.root.length, sheet.root.width)
    left: Node | None = root
    for section in sorted(held, key=lambda each: -_size(each, across)):
        assert left is not None, "sections fit where they were"
        size = _size(section, across)
        place, left = left.part(across, size) if size < _size(left, across) else (left, None)
        place.take(section.copy(place.x - section.x, place.y - section.y))
    return Sheet(sheet.bin, root)


def _sections(root: Node) -> list[Node]:
    """What cuts that run the same way as the first one part, before any runs the other way."""
    sections: list[Node] = []
    waiting: list[Node | None] = [root]
    while waiting:
        node = waiting.pop()
        if node is None:
            continue
        if node.across == root.across:
            waiting += [node.far, node.near]
        else:
            sections.append(node)
    return sections


def _size(node: Node, across: str) -> int:
    return node.length if across == "x" else node.width
