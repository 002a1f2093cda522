"""What is said of a design file that cannot be read: line, path and cure."""

from __future__ import annotations

from typing import Any, get_args

from pydantic import BaseModel

from furnlib.base.guards import nearest_word
from furnlib.plan.design_text import DesignText, KeyPath, spoken_path


def fault_of(text: DesignText, fault: Any, shape: type[BaseModel]) -> tuple[int, str]:
    """Turn one of pydantic's faults into a sentence with its line.

    Args:
        text: the file as it was written.
        fault: as pydantic reports it.
        shape: what the whole file should hold.

    Returns:
        The line and the sentence.
    """
    path: KeyPath = tuple(key for key in fault["loc"] if key != "[key]")
    line, where = text.line_of(path), spoken_path(path)
    match fault["type"]:
        case "missing":
            sentence = f"'{path[-1]}' is missing; add a line '{path[-1]}: …'."
            where = spoken_path(path[:-1]) or "top of the file"
        case "extra_forbidden":
            sentence = f"there is no '{path[-1]}' here; {nearest_word(str(path[-1]), _names_beside(path, shape))}"
            where = spoken_path(path[:-1]) or "top of the file"
        case "value_error":
            sentence = str(fault["ctx"]["error"])
        case "model_type" | "model_attributes_type" | "dict_type":
            sentence = "names and values should stand below this, each on a line of its own."
        case "tuple_type":
            sentence = "a list should stand here, such as [83, 103, 123], or lines that begin with '-'."
        case _:
            sentence = f"{fault['msg']}."
    return line, f"{text.name} line {line}, {where}: {sentence}"


def _names_beside(path: KeyPath, shape: type[BaseModel]) -> list[str]:
    """The names that the part of the file around this one knows."""
    part: Any = shape
    for key in path[:-1]:
        part = _within(part, str(key))
    return [field.alias or name for name, field in part.model_fields.items()]


def _within(part: type[BaseModel], key: str) -> Any:
    """The part that stands under a name; for legs and the like, the part of each."""
    fields = {field.alias or name: field for name, field in part.model_fields.items()}
    kinds: list[Any] = [fields[key].annotation] if key in fields else []
    while kinds:
        kind = kinds.pop()
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            return kind
        kinds.extend(get_args(kind))
    return part
