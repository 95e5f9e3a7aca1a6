"""Text and what it means: numbers with units, ids and names, words of papers, signs that can be drawn, templates."""
