"""What the packet's pages are drawn with: layout, words, pictures and their marks, the time line."""
