"""The record as pages: the one door to reportlab, which is imported when a page is made."""
