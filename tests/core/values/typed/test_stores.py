import pytest

from claimpack.core.values.typed.stores import StoreAddress, is_store, store_address


@pytest.mark.parametrize(
    ("place", "address"),
    [
        ("s3://quarry-road", StoreAddress("quarry-road", "")),
        ("s3://quarry-road/", StoreAddress("quarry-road", "")),
        ("s3://quarry.road-2/shop/2026/", StoreAddress("quarry.road-2", "shop/2026")),
        ("s3://abc/a.b", StoreAddress("abc", "a.b")),
    ],
)
def test_an_address_is_a_bucket_and_what_names_in_it_begin_with(place, address):
    assert store_address(place) == address


@pytest.mark.parametrize(
    ("place", "is_one"), [("s3://quarry-road", True), ("gs://quarry-road", True), ("vault", False)]
)
def test_an_address_is_told_from_a_folder(place, is_one):
    assert is_store(place) is is_one


@pytest.mark.parametrize(
    ("place", "because"),
    [
        ("gs://quarry-road", "no address of a store"),
        ("vault", "no address of a store"),
        ("s3://key@quarry-road", "a name, a password"),
        ("s3://quarry-road/key@shop", "a name, a password"),
        ("s3://key:secret", "a name, a password"),
        ("s3://quarry-road/shop?key=1", "a name, a password"),
        ("s3://ab", "names no bucket"),
        ("s3://Quarry-Road", "names no bucket"),
        ("s3://quarry..road", "names no bucket"),
        ("s3:///shop", "names no bucket"),
        ("s3://quarry-road/a b", "has a prefix"),
        ("s3://quarry-road/a//b", "has a prefix"),
        ("s3://quarry-road/a/../b", "has a prefix"),
        ("s3://quarry-road/.", "has a prefix"),
    ],
)
def test_what_is_no_address_or_holds_a_secret_is_refused_with_its_reason(place, because):
    with pytest.raises(ValueError, match=because):
        store_address(place)
