"""The parser of single lines, from parse tables that are generated once and shipped.

`python -m halfhank.grammar.lines.tables` writes `tables.json`. It is used only if it was made from this grammar text by
the installed Lark; else the parser is built from the text, which is slower and gives the same.

The file holds what Lark's own `memo_serialize` gives, in short rows: terminals, rules, and for each state the symbols
with the state that they lead to (0 and up) or the rule that they reduce by (-1 and down).
"""

import json
import os
from collections.abc import Mapping
from functools import cache
from typing import Any
from zlib import crc32

import lark
from halfhank.grammar.language import STARTS
from halfhank.grammar.lines.tokens import LineLexer, StraySigns
from lark.grammar import NonTerminal, Rule, RuleOptions, Symbol, Terminal
from lark.lexer import PatternRE, PatternStr, TerminalDef
from lark.parsers.lalr_analysis import IntParseTable, Reduce, Shift
from lark.parsers.lalr_parser import LALR_Parser, _Parser

FOLDER = os.path.dirname(os.path.dirname(__file__))
GRAMMAR = os.path.join(FOLDER, "shawl.lark")
TABLES = os.path.join(FOLDER, "tables.json")

ENDLESS = 2**32 - 1


class _ShortParser(LALR_Parser):
    """Lark's LALR parser, which reads its table from the short rows."""

    @classmethod
    def deserialize(  # type: ignore[override]
        cls, data: Mapping[str, Any], memo: Mapping[int, Any], callbacks: Any, debug: bool = False
    ) -> "_ShortParser":
        parser = cls.__new__(cls)
        symbols = data["symbols"]
        reduce = [(Reduce, memo[number]) for number in data["rules"]]
        states = {
            state: {
                symbols[symbol]: (Shift, target) if target >= 0 else reduce[-1 - target]
                for symbol, target in zip(row[::2], row[1::2], strict=True)
            }
            for state, row in enumerate(data["states"])
        }
        table: Any = IntParseTable(  # type: ignore[no-untyped-call]
            states, data["start_states"], data["end_states"]
        )
        parser._parse_table = table
        parser.parser = _Parser(parser._parse_table, callbacks, debug)
        return parser


_PLUGINS = {"ContextualLexer": LineLexer}
_LOAD_PLUGINS = {**_PLUGINS, "LALR_Parser": _ShortParser}


@cache
def line_parser() -> lark.Lark:
    """The parser, from the shipped tables where they fit."""
    text = read(GRAMMAR)
    try:
        tables = json.loads(read(TABLES))
    except (OSError, ValueError):
        return build_parser(text.decode())
    if not isinstance(tables, dict) or tables.get("key") != tables_key(text):
        return build_parser(text.decode())
    return load_parser(tables)


def read(path: str) -> bytes:
    """A file's bytes. Pathlib would do it too, but takes longer to import than all of this."""
    with open(path, "rb") as file:
        return file.read()


def tables_key(grammar: bytes) -> list[str]:
    """What tables depend on: Lark's version and the grammar's text."""
    return [lark.__version__, f"{len(grammar)} {crc32(grammar):08x}"]


def build_parser(grammar: str) -> lark.Lark:
    """The parser built from the grammar's text."""
    return lark.Lark(
        grammar,
        parser="lalr",
        lexer="contextual",
        start=list(STARTS),
        propagate_positions=True,
        postlex=StraySigns,
        _plugins=_PLUGINS,
    )


def make_tables(grammar: bytes) -> dict[str, Any]:
    """The tables of a grammar as plain data; the same grammar gives the same data in every run."""
    data, memo = build_parser(grammar.decode()).memo_serialize([TerminalDef, Rule])
    del data["options"]["_plugins"], data["options"]["postlex"]
    short = {number: _short_rule(one) if _is_rule(one) else _short_terminal(one) for number, one in memo.items()}
    order = sorted(memo, key=lambda number: (_is_rule(memo[number]), repr(short[number])))
    place = {number: index for index, number in enumerate(order)}
    rules = [place[number] for number in order if _is_rule(memo[number])]
    terminals = [place[number] for number in order if not _is_rule(memo[number])]
    parser = data["parser"]
    parser["parser"] = _short_table(parser["parser"], {order[index]: at for at, index in enumerate(rules)})
    parser["parser"]["rules"] = rules
    parser["lexer_conf"]["terminals"] = [{"@": index} for index in terminals]
    parser["parser_conf"]["rules"] = data["rules"] = [{"@": index} for index in rules]
    return {"key": tables_key(grammar), "data": data, "memo": [short[number] for number in order]}


def _is_rule(one: Mapping[str, Any]) -> bool:
    return bool(one["__type__"] == "Rule")


def _short_table(table: Mapping[str, Any], rules: Mapping[int, int]) -> dict[str, Any]:
    """Lark's parse table with its states in the order in which the start rules lead to them."""
    names: dict[int, str] = table["tokens"]
    symbols = sorted(names.values())
    order = list(dict.fromkeys(table["start_states"][start] for start in STARTS))
    for state in order:
        actions = sorted((names[symbol], action) for symbol, action in table["states"][state].items() if not action[0])
        order += [target for _, (_, target) in actions if target not in order]
    place = {state: index for index, state in enumerate(order)}
    states = []
    for state in order:
        row: list[int] = []
        for symbol, (reduces, target) in sorted(table["states"][state].items(), key=lambda item: names[item[0]]):
            row += [symbols.index(names[symbol]), -1 - rules[target["@"]] if reduces else place[target]]
        states.append(row)
    ends = {kind: {start: place[table[kind][start]] for start in STARTS} for kind in ("start_states", "end_states")}
    return {"symbols": symbols, "states": states, **ends}


def _short_terminal(one: Mapping[str, Any]) -> list[Any]:
    pattern = one["pattern"]
    width = pattern.get("_width")
    if width is not None:
        # The number for a width without end differs from one Python to the next.
        width = [min(columns, ENDLESS) for columns in width]
    return [one["name"], pattern["value"], one["priority"], width, pattern.get("raw")]


def _short_rule(one: Mapping[str, Any]) -> list[Any]:
    options = one["options"]
    expansion = [[part["name"], int(part.get("filter_out", -1))] for part in one["expansion"]]
    flags = [options["keep_all_tokens"], options["expand1"], options["priority"], None, list(options["empty_indices"])]
    return [one["origin"]["name"], expansion, one["order"], one["alias"], flags, None]


def load_parser(tables: Mapping[str, Any]) -> lark.Lark:
    """The parser from short tables as read back from JSON."""
    memo = {number: _rule(*one) if len(one) == 6 else _terminal(*one) for number, one in enumerate(tables["memo"])}
    parser: lark.Lark = lark.Lark._load_from_dict(  # type: ignore[no-untyped-call]
        tables["data"], memo, postlex=StraySigns, _plugins=_LOAD_PLUGINS
    )
    return parser


def _terminal(name: str, value: str, priority: int, width: list[int] | None, raw: str | None) -> TerminalDef:
    if width is None:
        return TerminalDef(name, PatternStr(value, raw=raw), priority)
    pattern = PatternRE(value, raw=raw)
    pattern._width = width
    return TerminalDef(name, pattern, priority)


def _rule(origin: str, expansion: list[list[Any]], order: int, alias: str | None, flags: list[Any], _: None) -> Rule:
    parts = [NonTerminal(name) if kept < 0 else Terminal(name, bool(kept)) for name, kept in expansion]
    symbols: list[Symbol] = [*parts]
    keep_all, expand1, priority, source, empty = flags
    return Rule(NonTerminal(origin), symbols, order, alias, RuleOptions(keep_all, expand1, priority, source, empty))


if __name__ == "__main__":
    with open(TABLES, "w", encoding="utf-8") as file:
        file.write(json.dumps(make_tables(read(GRAMMAR)), separators=(",", ":")) + "\n")
