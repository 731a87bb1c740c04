from __future__ import annotations

import pytest
from made_forms import a_mapping

from claimpack.folder.toml_files import read_toml
from claimpack.forms.fields import FormField, FormFields
from claimpack.forms.lint import lint
from claimpack.forms.mapping import form_from
from claimpack.template_files import FORMS, shipped

USE = FormField("use", "radio buttons", 1, options=("Own", "Rent"))
FOUND = FormFields((FormField("owner", "text", 1), USE), ((612, 792),))
PLACE = {"text": "{number}", "x": "1 in", "y": "1 in", "width": "1 in", "height": "1 in"}


def problems(**keys):
    return list(lint(a_mapping(**keys), FOUND))


def test_a_mapping_that_fits_its_form_has_nothing_wrong():
    assert problems() == []


@pytest.mark.parametrize(
    ("fields", "says"),
    [
        ({"onwer": "{number}"}, "there is no field 'onwer'. Did you mean 'owner'?"),
        ({"owner": "{owner.nmae}"}, "owner: key owner.nmae is not known. Did you mean"),
        ({"owner": "{line.name}"}, "owner: key line.name is of a line"),
        ({"owner": {"check": "proof.knd"}}, "owner: key proof.knd is not known."),
        ({"at": {**PLACE, "page": 2}}, "at: there is no page 2; the form has 1"),
        ({"at": {**PLACE, "page": 1, "x": "8 in"}}, "at: the place reaches over the edge of page 1"),
        ({"use": {"text": "{unit.use}", "words": {"rental": "Hire"}}}, "use: the form does not offer 'Hire'"),
    ],
)
def test_what_the_form_or_the_claim_does_not_have_is_named(fields, says):
    (problem,) = problems(fields=fields)
    assert problem.startswith(says)


@pytest.mark.parametrize("name", ["owner", "new"])
def test_any_words_may_stand_in_a_text_or_tick_a_box(name):
    found = FormFields((FormField("owner", "text", 1), FormField("new", "check box", 1, options=("Yes",))), ((9, 9),))
    entry = {"text": "{unit.use}", "words": {"rental": "Hire"}}
    assert list(lint(a_mapping(fields={name: entry}), found)) == []


def test_of_a_row_only_the_first_wrong_field_is_told():
    rows = [{"of": "parts", "rows": 9, "fields": {"part {row}": "{line.name}"}}]
    assert len(problems(rows=rows)) == 1


def test_a_row_that_falls_off_the_page_is_told():
    rows = [{"of": "parts", "rows": 9, "step": "1.2 in", "fields": {"p {row}": {**PLACE, "page": 1}}}]
    assert problems(rows=rows) == ["p 9: the place reaches over the edge of page 1"]


@pytest.mark.parametrize("path", sorted(shipped(FORMS).glob("*.toml")), ids=lambda path: path.stem)
def test_a_shipped_mapping_names_its_maker_and_its_pdf(path):
    form = form_from(read_toml(path), path.name)
    assert (form.id, (path.parent / form.file).is_file(), bool(form.name)) == (path.stem, True, True)
