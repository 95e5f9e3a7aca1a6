"""What a reader that is not ours finds on the pages of a PDF, line by line."""

import pypdfium2


def read_pages(pdf: bytes) -> list[str]:
    """The text of each page."""
    return [page.get_textpage().get_text_bounded().replace("\r\n", "\n") for page in pypdfium2.PdfDocument(pdf)]
