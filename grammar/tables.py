"""The parser of single lines, from parse tables that are generated once and shipped.

`python -m halfhank.grammar.tables` writes `tables.json`. It is used only if it was made from this grammar text by the
installed Lark; else the parser is built from the text, which is slower and gives the same.
"""

import json
from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

import lark
from halfhank.grammar.lexing import LineLexer
from lark.grammar import Rule
from lark.lexer import TerminalDef

GRAMMAR = Path(__file__).with_name("shawl.lark")
TABLES = Path(__file__).with_name("tables.json")

HEADER = "header"
STARTS = (HEADER, "in_shawl", "in_yarn", "in_stitch", "in_shape", "in_part", "in_weighed")
_PLUGINS = {"ContextualLexer": LineLexer}


@cache
def line_parser() -> lark.Lark:
    """The parser, from the shipped tables where they fit."""
    text = GRAMMAR.read_bytes()
    try:
        tables = json.loads(TABLES.read_bytes())
    except (OSError, ValueError):
        return build_parser(text.decode())
    if not isinstance(tables, dict) or tables.get("key") != tables_key(text):
        return build_parser(text.decode())
    return load_parser(tables)


def tables_key(grammar: bytes) -> list[str]:
    """What tables depend on: Lark's version and the grammar's text."""
    return [lark.__version__, sha256(grammar).hexdigest()]


def build_parser(grammar: str) -> lark.Lark:
    """The parser built from the grammar's text."""
    return lark.Lark(
        grammar,
        parser="lalr",
        lexer="contextual",
        start=list(STARTS),
        propagate_positions=True,
        _plugins=_PLUGINS,
    )


def make_tables(grammar: bytes) -> dict[str, Any]:
    """The tables of a grammar as plain data."""
    data, memo = build_parser(grammar.decode()).memo_serialize([TerminalDef, Rule])
    data["options"].pop("_plugins")
    return {"key": tables_key(grammar), "data": data, "memo": memo}


def load_parser(tables: Mapping[str, Any]) -> lark.Lark:
    """The parser from tables as read back from JSON, whose keys are all strings."""
    data, memo = tables["data"], _whole_keys(tables["memo"])
    parser = data["parser"]["parser"]
    parser["tokens"] = _whole_keys(parser["tokens"])
    parser["states"] = {int(state): _whole_keys(actions) for state, actions in parser["states"].items()}
    return lark.Lark._load_from_dict(data, memo, _plugins=_PLUGINS)


def _whole_keys(table: Mapping[str, Any]) -> dict[int, Any]:
    return {int(key): value for key, value in table.items()}


if __name__ == "__main__":
    TABLES.write_text(json.dumps(make_tables(GRAMMAR.read_bytes()), separators=(",", ":")), encoding="utf-8")
