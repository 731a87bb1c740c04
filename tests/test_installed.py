import sys
from importlib.machinery import ModuleSpec
from types import ModuleType

import pytest

from claimpack.installed import install_command


def receipt(place, keys=""):
    place.joinpath("uv-receipt.toml").write_text(f'[tool]\nrequirements = [{{ name = "claimpack"{keys} }}]\n')
    return place


def test_a_copy_of_pipx_is_added_to_by_pipx(tmp_path):
    tmp_path.joinpath("pipx_metadata.json").write_text("{}")
    assert install_command("pyhanko", tmp_path) == "pipx inject claimpack pyhanko"


def test_a_copy_of_uv_tool_is_added_to_by_uv_tool(tmp_path):
    assert install_command("pyhanko", receipt(tmp_path)) == "uv tool install --with pyhanko claimpack"


@pytest.mark.parametrize("key", ["directory", "editable"])
def test_a_copy_of_uv_tool_from_a_folder_is_made_from_that_folder_again(tmp_path, key):
    place = receipt(tmp_path, f', {key} = "/home/ann/claim pack"')
    assert install_command("pyhanko", place).endswith("--with pyhanko '/home/ann/claim pack'")


def test_a_receipt_that_cannot_be_read_leaves_the_program_by_name(tmp_path):
    tmp_path.joinpath("uv-receipt.toml").write_text("tool = 1")
    assert install_command("pyhanko", tmp_path).endswith("pyhanko claimpack")


def test_any_other_copy_is_added_to_by_its_own_pip(tmp_path):
    assert install_command("psycopg[binary]", tmp_path, has_pip=True).endswith(" -m pip install 'psycopg[binary]'")


def pip(*, is_there):
    found = ModuleType("pip")
    found.__spec__ = ModuleSpec("pip", None)
    return found if is_there else None


@pytest.mark.parametrize(("is_there", "by"), [(True, "python -m pip install"), (False, "uv pip install --python")])
def test_whether_pip_is_there_is_looked_for_where_nobody_says(tmp_path, monkeypatch, is_there, by):
    monkeypatch.setitem(sys.modules, "pip", pip(is_there=is_there))
    monkeypatch.setattr(sys, "executable", "python")
    assert install_command("pyhanko", tmp_path).startswith(by)


@pytest.mark.parametrize(("folder", "typed"), [("shop", "venv/bin/python"), ("shop/claims", "{}/shop/venv/bin/python")])
def test_a_python_is_typed_from_where_one_stands_where_it_lies_below(tmp_path, monkeypatch, folder, typed):
    (tmp_path / folder).mkdir(parents=True)
    monkeypatch.chdir(tmp_path / folder)
    monkeypatch.setattr(sys, "executable", str(tmp_path / "shop/venv/bin/python"))
    command = install_command("pyhanko", tmp_path, has_pip=True)
    assert command == f"{typed.format(tmp_path)} -m pip install pyhanko"


def test_an_environment_without_pip_is_added_to_by_uv(tmp_path):
    assert install_command("pyhanko", tmp_path, has_pip=False) == f"uv pip install --python {tmp_path} pyhanko"


def test_several_libraries_are_added_at_once(tmp_path):
    assert install_command("rapidocr onnxruntime", receipt(tmp_path)) == (
        "uv tool install --with rapidocr --with onnxruntime claimpack"
    )
