"""The real app keeps its budget: its files and bytes as they are were checked when it was built."""

from pathlib import Path

from pondapp.web import check


def test_a_first_visit_keeps_its_budget(site_of_app: Path) -> None:
    check.check_zipped(
        {
            str(path.relative_to(site_of_app)): path.read_bytes()
            for path in site_of_app.rglob("*")
            if path.is_file()
        }
    )
