"""The layers of a PDF: which of them a reader sees when the paper is opened, and pages without the others."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

import pikepdf
from pikepdf import Dictionary, Operator

from claimpack.errors import BadInput

# No program nests layers this deep; a file that does is made to keep its reader busy.
_NESTED = 32
_SHOWS_TEXT = {"Tj", "TJ"}
_FILLS = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*"}
_PLACES = {"sh", "Do", "INLINE IMAGE"}


class Layers:
    """The optional content of one PDF, as its own default settings switch it on and off.

    Source: ISO 32000-1, 8.11.2 (groups, membership), 8.11.4.3 (the default configuration).
    """

    def __init__(self, pdf: pikepdf.Pdf) -> None:
        told = pdf.Root.get("/OCProperties", Dictionary())
        default = told.get("/D", Dictionary())
        # What nobody sees on the paper must not be found in the packet.
        self._off = _each(told.get("/OCGs", ())) if default.get("/BaseState") == "/OFF" else set()
        self._off = (self._off | _each(default.get("/OFF", ()))) - _each(default.get("/ON", ()))
        self.left_out = False
        """Whether something was found on a layer that is switched off."""

    def hide(self, holder: Any, depth: int = 0) -> bool:
        """Whether a layer, or several named together, is switched off; remembered for the note."""
        hidden = isinstance(holder, Dictionary) and not self._shown(holder, depth)
        self.left_out = self.left_out or hidden
        return hidden

    def _shown(self, layer: Any, depth: int) -> bool:
        if depth > _NESTED:
            raise BadInput("its layers are nested too deeply")
        if layer.get("/Type") != "/OCMD":
            return layer.objgen not in self._off
        if "/VE" in layer:
            return self._holds(layer["/VE"], depth + 1)
        members = layer.get("/OCGs", ())
        members = [members] if isinstance(members, Dictionary) else list(members)
        states = [self._shown(member, depth + 1) for member in members if isinstance(member, Dictionary)]
        if not states:
            return True
        match str(layer.get("/P", "/AnyOn")):
            case "/AllOn":
                return all(states)
            case "/AnyOff":
                return not all(states)
            case "/AllOff":
                return not any(states)
        return any(states)

    def _holds(self, expression: Any, depth: int) -> bool:
        if isinstance(expression, Dictionary):
            return self._shown(expression, depth)
        if depth > _NESTED:
            raise BadInput("its layers are nested too deeply")
        operator, *operands = expression
        states = [self._holds(operand, depth + 1) for operand in operands]
        if operator == "/Not":
            return not any(states)
        return all(states) if operator == "/And" else any(states)


def _each(layers: Iterable[Any]) -> set[tuple[int, int]]:
    return {layer.objgen for layer in layers if isinstance(layer, Dictionary)}


def shown_alone(instructions: Iterable[Any], properties: Any, layers: Layers) -> Iterator[tuple[Any, Any]]:
    """The instructions of a page without marks and without what is on layers switched off.

    Inside such a layer nothing is drawn, while lines, places and colours go on being set for what follows.

    Args:
        instructions: as they stand in the page's content.
        properties: the layers by the name the content calls them.
        layers: which of them are switched off.

    Source: ISO 32000-1, 14.6 (marked content), 8.11.3.2 (what is hidden still moves the pen).
    """
    marks: list[bool] = []
    for instruction in instructions:
        operands, operator = instruction.operands, str(instruction.operator)
        if operator in ("BMC", "BDC"):
            hidden = operator == "BDC" and operands[0] == "/OC" and layers.hide(properties.get(operands[1]))
            marks.append(hidden)
        elif operator == "EMC":
            del marks[-1:]
        # A mark draws nothing, and may tell what a program noted beside the text.
        elif operator in ("MP", "DP"):
            continue
        elif any(marks):
            yield from _undrawn(instruction, operator)
        else:
            yield instruction


def _undrawn(instruction: Any, operator: str) -> Iterator[Any]:
    if operator in _SHOWS_TEXT or operator in _PLACES:
        return
    if operator in _FILLS:
        yield [], Operator("n")
    elif operator == "'":
        yield [], Operator("T*")
    elif operator == '"':
        words, letters, _ = instruction.operands
        yield from (([words], Operator("Tw")), ([letters], Operator("Tc")), ([], Operator("T*")))
    else:
        yield instruction
