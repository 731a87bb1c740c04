from running import claimpack
from shop_builders import an_empty_shop


def test_the_statements_can_go_into_the_servers_own_program(tmp_path):
    out = claimpack("shop", "roles", folder=an_empty_shop(tmp_path)).out
    assert all(line.startswith("--") or line.endswith(";") for line in out.splitlines())


def test_scripts_are_told_the_roles_and_what_a_technician_records(tmp_path):
    told = claimpack("shop", "roles", "--json", folder=an_empty_shop(tmp_path)).json
    assert set(told["roles"]) == {"accountant", "technician", "office"}
    assert "paid" not in told["technician_records"]


def test_a_book_in_a_file_is_said_to_have_no_roles(tmp_path):
    assert "file" in claimpack("shop", "roles", folder=an_empty_shop(tmp_path)).err
