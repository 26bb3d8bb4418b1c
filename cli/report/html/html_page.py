"""A report as one HTML file that needs nothing else: no script, no other file, no address.

It is built as a tree; the style sheet beside this module and one rule for the paper are its only texts of another
language.
"""

import os
from collections.abc import Iterable

from halfhank.cli.report.html.elements import Element, new_element
from halfhank.cli.report.html.html_text import set_words
from halfhank.grammar.record import NamedTuple
from halfhank.model.words.in_force import language
from lxml import etree

A4, LETTER = "a4", "letter"
PAPERS = {A4: ("210mm 297mm", "29mm"), LETTER: ("8.5in 11in", "31.95mm")}
"""Each paper's size and the margin at its sides, between which the column is."""
_HEIGHTS_MM = {A4: 297.0, LETTER: 279.4}
_ABOVE_MM, _BELOW_MM = 15.0, 17.0
COLUMN_MM = 152.0
"""The width of the column on either paper."""
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
"""Content security policy: nothing is loaded and nothing runs, whatever a page should ever hold."""
_FOLDER = os.path.dirname(__file__)


class PageForm(NamedTuple):
    """How a page is set: for which `paper` (one of `PAPERS`), and in large print."""

    paper: str = A4
    large: bool = False


class PageNames(NamedTuple):
    """What a file's own data say of it: its title, and its author where it has one."""

    title: str
    author: str | None = None


def html_page(names: PageNames, content: Iterable[Element], form: PageForm) -> Element:
    """The tree of the whole page, with the content as its main part."""
    metas: list[dict[str, str]] = [
        {"charset": "utf-8"},
        {"http-equiv": "Content-Security-Policy", "content": _POLICY},
        {"name": "viewport", "content": "width=device-width, initial-scale=1"},
        {"name": "color-scheme", "content": "light dark"},
        *([{"name": "author", "content": set_words(names.author)}] if names.author else []),
    ]
    head = new_element("head", None, [new_element("meta", None, (), meta) for meta in metas])
    head.append(new_element("title", set_words(names.title)))
    head.append(new_element("style", _style(form)))
    body = new_element("body", None, [new_element("main", None, content)])
    root = {"lang": language().code, "class": "large" if form.large else "standard"}
    return new_element("html", None, [head, body], root)


def _style(form: PageForm) -> str:
    size, side = PAPERS[form.paper]
    with open(os.path.join(_FOLDER, "page.css"), encoding="utf-8") as file:
        return f"{file.read()}@page {{ size: {size}; margin: {_ABOVE_MM:g}mm {side} {_BELOW_MM:g}mm; }}\n"


def paper_height_mm(form: PageForm) -> float:
    """The height between the margins of a sheet of paper."""
    return _HEIGHTS_MM[form.paper] - _ABOVE_MM - _BELOW_MM


def html_bytes(page: Element) -> bytes:
    """The page as a file in UTF-8; the same tree gives the same bytes."""
    written = etree.tostring(page, encoding="unicode", method="html", doctype="<!DOCTYPE html>")
    return f"{written}\n".encode()
