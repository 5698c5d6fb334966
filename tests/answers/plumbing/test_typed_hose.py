from ponds import THREE_FEATURES as POND

from pondapp.answers.plumbing.typed_hose import TypedHose, with_hose


def test_every_branch_has_the_hose_that_comes_nearest() -> None:
    made = with_hose(POND, TypedHose(0.8, 0.0249, 3.0, ribbed=True))
    branches = made.lines[0].branches
    assert [branch.feeds for branch in branches] == [("bog",), ("box", "lip")]
    for branch in branches:
        assert branch.pipe is not None
        assert (branch.pipe.series, branch.pipe.size) == ("ribbed hose, mm", "25 mm")
        assert (branch.pipe.length_m, branch.lift_m) == (3.0, 0.8)


def test_an_inch_hose_stays_one() -> None:
    made = with_hose(POND, TypedHose(None, 0.0381, 2.0, ribbed=False))
    pipe = made.lines[0].branches[0].pipe
    assert pipe is not None
    assert (pipe.series, pipe.size) == ("hose, in", "1 1/2 in")


def test_a_lift_alone_is_kept_and_nothing_typed_changes_nothing() -> None:
    made = with_hose(POND, TypedHose(0.5, 0.025, None, ribbed=True))
    assert made.lines[0].branches[0].lift_m == 0.5
    assert made.lines[0].branches[0].pipe is None
    assert with_hose(POND, TypedHose(None, None, 2.0, ribbed=True)) is POND
