from claimpack.installed import install_command


def receipt(place, keys=""):
    place.joinpath("uv-receipt.toml").write_text(f'[tool]\nrequirements = [{{ name = "claimpack"{keys} }}]\n')
    return place


def test_a_copy_of_pipx_is_added_to_by_pipx(tmp_path):
    tmp_path.joinpath("pipx_metadata.json").write_text("{}")
    assert install_command("pyhanko", tmp_path) == "pipx inject claimpack pyhanko"


def test_a_copy_of_uv_tool_is_added_to_by_uv_tool(tmp_path):
    assert install_command("pyhanko", receipt(tmp_path)) == "uv tool install --with pyhanko claimpack"


def test_a_copy_of_uv_tool_from_a_folder_is_made_from_that_folder_again(tmp_path):
    place = receipt(tmp_path, ', directory = "/home/ann/claim pack"')
    assert install_command("pyhanko", place).endswith("--with pyhanko '/home/ann/claim pack'")


def test_a_receipt_that_cannot_be_read_leaves_the_program_by_name(tmp_path):
    tmp_path.joinpath("uv-receipt.toml").write_text("tool = 1")
    assert install_command("pyhanko", tmp_path).endswith("pyhanko claimpack")


def test_any_other_copy_is_added_to_by_its_own_pip(tmp_path):
    assert install_command("psycopg[binary]", tmp_path, has_pip=True).endswith(" -m pip install 'psycopg[binary]'")


def test_an_environment_without_pip_is_added_to_by_uv(tmp_path):
    assert install_command("pyhanko", tmp_path, has_pip=False) == f"uv pip install --python {tmp_path} pyhanko"


def test_several_libraries_are_added_at_once(tmp_path):
    assert install_command("rapidocr onnxruntime", receipt(tmp_path)) == (
        "uv tool install --with rapidocr --with onnxruntime claimpack"
    )
