"""A page as a PDF, by WeasyPrint, which is imported only here and only when a PDF is asked for."""

import logging
from copy import deepcopy
from typing import Any

from halfhank.cli.errors import CommandError
from halfhank.cli.report.html.elements import SVG_NAMESPACE, Element
from halfhank.cli.report.html.html_page import html_bytes

_VARIANT = "pdf/ua-1"
"""Universal accessibility (ISO 14289-1): tagged, with language and title."""


def pdf_bytes(page: Element) -> bytes:
    """The page as a tagged PDF with its fonts; the same page gives the same bytes, without a date.

    Raises `CommandError` where WeasyPrint or a library that it needs is missing.
    """
    weasyprint = _weasyprint()
    logging.getLogger("weasyprint").setLevel(logging.CRITICAL)
    text = html_bytes(_with_whole_titles(page)).decode()
    written: bytes = weasyprint.HTML(string=text, url_fetcher=_refuse).write_pdf(pdf_variant=_VARIANT)
    return written


def _weasyprint() -> Any:
    try:
        import weasyprint
    except ImportError as error:
        raise CommandError(
            "a page in PDF needs WeasyPrint, which is not installed",
            "pip install 'halfhank[pdf]', or write the page as .html",
        ) from error
    except OSError as error:  # its own libraries are loaded when it is imported
        raise CommandError(
            "a page in PDF needs the Pango library, which is not installed",
            "apt install libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0, or write the page as .html",
        ) from error
    return weasyprint


def _refuse(url: str, *_: object, **__: object) -> dict[str, Any]:
    """A page refers to nothing outside it; if one ever did, nothing would be fetched."""
    raise ValueError(f"a page loads nothing: {url}")


def _with_whole_titles(page: Element) -> Element:
    """The page with each drawing's description in its title: a PDF has one alternative text, made of the title."""
    copied = deepcopy(page)
    for title in copied.iterfind(f".//{{{SVG_NAMESPACE}}}svg/{{{SVG_NAMESPACE}}}title"):
        described = title.getnext()
        if described is not None and described.tag == f"{{{SVG_NAMESPACE}}}desc" and described.text:
            title.text = f"{title.text}. {described.text}"
    return copied
