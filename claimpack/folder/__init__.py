"""Folders of text files, a claim's and a shop's: TOML read exactly, changed where it stands, written whole."""
