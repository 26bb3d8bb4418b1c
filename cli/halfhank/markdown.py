"""Fenced blocks of descriptions in Markdown: a plugin for markdown-it-py that draws each where it stands.

    from markdown_it import MarkdownIt
    from halfhank.markdown import shawl_plugin

    html = MarkdownIt().use(shawl_plugin).render(text)

A fence is called `shawl`, and has the options of `halfhank draw` behind its name: `shawl --width 120 --only drawing`.
The library itself is not imported here.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from typing import Any

    from halfhank.grammar.problems.problem import Problem
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

LANGUAGE = "shawl"
VALUES = {"scale": "scale", "width": "width_mm", "height": "height_mm", "units": "units", "ramp": "ramp"}
VALUES |= {"only": "only", "without": "without"}
FLAGS = {"contours": "contours", "transparent": "transparent", "as-planned": "as_planned"}
FENCE_OPTIONS = VALUES | FLAGS
"""The options of a fence, and what `halfhank.draw` calls them."""
NUMBERS = ("scale", "width", "height")
FAULT = "Halfhank itself has failed here: please report it."


class FenceError(ValueError):
    """An option of a fence that cannot be followed, worded for the person who wrote it."""


def shawl_plugin(md: "MarkdownIt", **defaults: object) -> None:
    """Draws every fence called `shawl` as an `svg` element; other fences are left as they were.

    `defaults` are options for all of them, by the names of `halfhank.draw`, and a fence's own come before these. A
    description with mistakes gives the list of its problems, with the lines of the fence, and no rendering raises.

    Raises `TypeError` for a default that is no option.
    """
    unknown = set(defaults) - set(FENCE_OPTIONS.values())
    if unknown:
        raise TypeError(f"shawl_plugin has no option {min(unknown)!r}")
    renderer: Any = md.renderer
    others: Callable[..., str] = renderer.rules["fence"]

    def fence(_: object, tokens: "Sequence[Token]", index: int, options: "Any", env: "Any") -> str:
        name, *words = tokens[index].info.split() or [""]
        if name != LANGUAGE:
            return others(tokens, index, options, env)
        return fence_html(tokens[index].content, words, defaults)

    md.add_render_rule("fence", fence)


def fence_html(text: str, words: "Sequence[str]" = (), defaults: "dict[str, Any] | None" = None) -> str:
    """The drawing of a description as HTML, or what is wrong with it or with its options."""
    from halfhank.interface import DescriptionError, draw
    from halfhank.renderer import OptionError

    try:
        options = {**(defaults or {}), **fence_options(words)}
        return draw(text, **{**options, "format": "svg", "embed": True}).decode()
    except DescriptionError as error:
        return _listed("This description has mistakes:", _problems(error.problems, text))
    except (FenceError, OptionError) as error:
        return _listed("This drawing has an option that cannot be followed:", [_escaped(str(error))])
    except Exception:  # one fence never costs a whole page
        return _listed("This drawing could not be made:", [_escaped(FAULT)])


def fence_options(words: "Iterable[str]") -> "dict[str, Any]":
    """The options behind a fence's name, `--width 120` or `--width=120`, as `halfhank.draw` takes them.

    Raises `FenceError` for what is no option, has no value or is no number where one is needed.
    """
    found: dict[str, Any] = {}
    left = [part for word in words for part in (word.split("=", 1) if word.startswith("--") else [word])]
    while left:
        word = left.pop(0)
        name = word.removeprefix("--")
        if word == name or name not in FENCE_OPTIONS:
            known = ", ".join(f"--{one}" for one in FENCE_OPTIONS)
            raise FenceError(f"{word} is no option of a drawing; there are {known}")
        if name in FLAGS:
            found[FLAGS[name]] = True
        elif not left:
            raise FenceError(f"--{name} needs a value")
        else:
            found[VALUES[name]] = _value(name, left.pop(0))
    return found


def _value(name: str, word: str) -> float | str:
    if name not in NUMBERS:
        return word
    number = word.removeprefix("1:") if name == "scale" else word.removesuffix("mm")
    try:
        return float(number)
    except ValueError:
        raise FenceError(f"{word} is not a number for --{name}") from None


def _problems(problems: "Iterable[Problem]", text: str) -> list[str]:
    """The mistakes, each with its line of the fence, counted from 1, and how to fix it."""
    from halfhank.grammar.problems.problem import MISTAKE
    from halfhank.grammar.source_text.excerpt import source_line, source_lines

    lines, found = source_lines(text), []
    for problem in problems:
        if problem.severity == MISTAKE:
            source = source_line(problem, lines)
            quoted = f", <code>{_escaped(source.strip())}</code>" if source is not None else ""
            place = f"line {problem.span.line}{quoted}: " if problem.span else ""
            hint = f" <em>try: {_worded(problem.hint)}</em>" if problem.hint else ""
            found.append(f"{place}{_worded(problem.message)}{hint}")
    return found


def _listed(heading: str, entries: "Iterable[str]") -> str:
    """A list on one line, of entries that are HTML."""
    items = "".join(f"<li>{entry}</li>" for entry in entries)
    return f'<div class="halfhank-problems"><p>{heading}</p><ul>{items}</ul></div>\n'


def _escaped(text: str) -> str:
    """Any text as HTML, control and bidirectional characters as their codes."""
    from html import escape

    from halfhank.grammar.source_text.excerpt import safe

    return escape(safe(text))


def _worded(text: str) -> str:
    """A problem's words as HTML, what is in backticks as code."""
    import re

    return re.sub("`([^`]*)`", r"<code>\1</code>", _escaped(text))
