from __future__ import annotations

import io

import pikepdf
import pytest
from packets import a_packet, tampered
from pikepdf import Array, Dictionary, Name, String

from claimpack.packet.proving.attachment_changes import attachment_changes
from claimpack.packet.proving.verify import verify


def changes(act=lambda _: None):
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        act(pdf)
        return list(attachment_changes(pdf))


def another(pdf, name="claim.json"):
    """A file of somebody else's under the name of one of ours."""
    stream = pdf.make_stream(b'{"number": "26-0001"}', Type=Name.EmbeddedFile, Subtype=Name("/application/json"))
    held = Dictionary(F=stream, UF=stream)
    return pdf.make_indirect(Dictionary(Type=Name.Filespec, F=name, UF=name, AFRelationship=Name.Source, EF=held))


def leaf(names, name):
    return Dictionary(Names=names, Limits=Array([String(name), String(name)]))


def test_a_packet_as_it_was_made_has_none():
    assert changes() == []


def test_a_file_put_in_the_place_of_one_that_is_associated_is_named():
    def act(pdf):
        pdf.Root.AF[0] = another(pdf)

    assert changes(act) == ["a file was added to the document's list of associated files"]


@pytest.mark.parametrize("place", ["first", "last"])
def test_a_name_listed_twice_is_named(place):
    def act(pdf):
        tree = pdf.Root.Names.EmbeddedFiles
        pair, there = [String("claim.json"), another(pdf)], list(tree.Names)
        tree.Names = Array([*pair, *there] if place == "first" else [*there, *pair])

    assert "the attachment claim.json is listed twice" in changes(act)


def test_a_name_listed_again_in_a_branch_of_its_own_is_named():
    def act(pdf):
        tree = pdf.Root.Names.EmbeddedFiles
        ours = leaf(tree.Names, "plan.json")
        theirs = leaf(Array([String("claim.json"), another(pdf)]), "claim.json")
        del tree["/Names"]
        tree.Kids = Array([pdf.make_indirect(theirs), pdf.make_indirect(ours)])

    assert "the attachment claim.json is listed twice" in changes(act)


def test_a_file_that_only_some_readers_find_is_named():
    def act(pdf):
        hidden = leaf(Array([String("zz.json"), another(pdf, "zz.json")]), "zz.json")
        pdf.Root.Names.EmbeddedFiles.Kids = Array([pdf.make_indirect(hidden)])

    assert "attachments are listed where some readers look and others do not" in changes(act)


def test_branches_that_lead_back_to_themselves_are_walked_once():
    def act(pdf):
        tree = pdf.make_indirect(pdf.Root.Names.EmbeddedFiles)
        pdf.Root.Names.EmbeddedFiles = tree
        tree.Kids = Array([tree])

    assert changes(act) == []


@pytest.mark.parametrize("key", ["RF", "DOS", "Unix", "Mac", "Thumb"])
def test_a_key_that_no_packet_gives_is_named(key):
    def act(pdf):
        pdf.attachments["claim.json"].obj[f"/{key}"] = String("invoice.exe")

    assert changes(act) == [f"claim.json was given what no attachment of a packet has: {key}"]


def test_another_kind_of_file_is_named():
    def act(pdf):
        pdf.attachments["claim.json"].obj.EF.F.Subtype = Name("/application/x-msdownload")

    assert changes(act) == ["the kind of file that claim.json is said to be was changed"]


def test_another_description_is_named():
    def act(pdf):
        pdf.attachments["claim.json"].obj.Desc = String("Approved by the maker")

    assert changes(act) == ["the description of claim.json was changed"]


def test_a_file_outside_the_packet_in_the_place_of_a_content_is_named():
    def act(pdf):
        pdf.attachments["claim.json"].obj.EF.F.F = String("other.json")

    assert changes(act) == ["claim.json was given what no attachment of a packet has, beside its content"]


def test_a_file_attached_to_the_metadata_is_named():
    def act(pdf):
        pdf.Root.Metadata.AF = Array([another(pdf)])

    assert changes(act) == ["something was attached to the document's metadata"]


@pytest.mark.parametrize("more", [[String("odd")], [String("zz.json"), String("x")]], ids=["a name alone", "no file"])
def test_a_name_without_a_file_is_named(more):
    def act(pdf):
        tree = pdf.Root.Names.EmbeddedFiles
        tree.Names = Array([*tree.Names, *more])

    assert changes(act) != []


def test_a_branch_that_is_none_is_named():
    def act(pdf):
        pdf.Root.Names.EmbeddedFiles.Kids = Array([String("branch")])

    assert "the list of attachments is not in order" in changes(act)


def names_turned(pdf):
    tree = pdf.Root.Names.EmbeddedFiles
    first, its, second, other, *rest = list(tree.Names)
    tree.Names = Array([second, other, first, its, *rest])


def a_name_alone(pdf):
    tree = pdf.Root.Names.EmbeddedFiles
    tree.Names = Array([*tree.Names, String("zz")])


@pytest.mark.parametrize("act", [names_turned, a_name_alone])
def test_a_list_that_readers_who_halve_it_would_get_lost_in_is_named(act):
    assert "the list of attachments is not in order" in changes(act)


@pytest.mark.parametrize(
    "act",
    [
        lambda held: held.__delitem__("/Params"),
        lambda held: held.Params.__setitem__("/Note", String("x")),
        lambda held: held.Params.__setitem__("/Size", 3),
        lambda held: held.Params.__setitem__("/CheckSum", String("x" * 16)),
        lambda held: held.Params.__setitem__("/CreationDate", String("D:20200101")),
        lambda held: held.Params.__delitem__("/ModDate"),
    ],
    ids=["nothing", "more", "a size", "a checksum", "a day", "no day"],
)
def test_what_is_told_of_a_file_must_be_all_and_true(act):
    told = changes(lambda pdf: act(pdf.attachments["claim.json"].obj.EF.F))
    assert told == ["the size, the checksum or a date told of claim.json was changed"]


@pytest.mark.parametrize("key", ["/F", "/UF"])
def test_a_name_that_readers_show_instead_is_named(key):
    told = changes(lambda pdf: pdf.attachments["claim.json"].obj.__setitem__(key, String("approval.json")))
    assert told == ["the name under which readers show claim.json was changed"]


def test_an_attachment_that_readers_know_by_one_name_alone_has_that():
    assert changes(lambda pdf: pdf.attachments["claim.json"].obj.__delitem__("/F")) == []


def swapped(pdf):
    pdf.Root.AF[0] = another(pdf)


def listed_first(pdf):
    tree = pdf.Root.Names.EmbeddedFiles
    tree.Names = Array([String("claim.json"), another(pdf), *tree.Names])


@pytest.mark.parametrize("act", [swapped, listed_first])
def test_a_packet_with_another_file_under_a_name_of_ours_is_not_genuine(act):
    assert not verify(tampered(act)).genuine
