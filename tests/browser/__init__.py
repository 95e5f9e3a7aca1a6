"""The pages in a browser, as people meet them."""
