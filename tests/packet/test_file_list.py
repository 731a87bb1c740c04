from __future__ import annotations

from drawn_packets import a_layout, draw, text_of

from claimpack.packet.page_evidence import PacketFile

ONLY = {"sections": ["files", "declaration"]}


def test_every_file_is_told_with_its_size_and_the_beginning_of_its_hash():
    files = [PacketFile("photos/plate.jpg", "0123456789abcdef" * 4, 5120)]
    assert "photos/plate.jpg 5120 0123456789abcdef Declaration" in text_of(draw(layout=a_layout(**ONLY), files=files))


def test_a_long_list_repeats_its_titles_on_every_page():
    files = [PacketFile(f"photos/{n}.jpg", "ab" * 32, n) for n in range(120)]
    drawn = draw(layout=a_layout(sections=["files"]), files=files)
    assert text_of(drawn).count("File Bytes SHA-256 begins") == drawn.page_count


def test_a_packet_told_of_no_files_lists_none():
    assert "SHA-256" not in text_of(draw(layout=a_layout(**ONLY)))
