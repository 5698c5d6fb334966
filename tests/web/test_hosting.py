"""What hosts the site says the same as the server that the tests know, and an image serves it."""

import gzip
import json
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import dev
import pytest

from pondapp.web import hosted, places, serve, site

HOSTING = places.ROOT / "build" / "hosting"
IMAGE = (HOSTING / "Containerfile").read_text(encoding="utf-8")
WORKFLOW = (places.ROOT / ".github" / "workflows" / "pages.yml").read_text(encoding="utf-8")
AT = re.compile(r"pondapp is at http://0\.0\.0\.0:(\d+)(\S*)")


def said(instruction: str) -> list[str]:
    """What follows an instruction of the image, each time."""
    return re.findall(rf"^{instruction} (.*)$", IMAGE, re.MULTILINE)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site with packed twins, in little time."""
    folder = tmp_path_factory.mktemp("built") / "site"
    files = site.site_files({"main.py": b"print()\n"})
    site.write(files, folder, compress=False)
    for path, data in files.items():
        if len(data) > 10_000:
            (folder / f"{path}.gz").write_bytes(gzip.compress(data, 1))
    return folder


@pytest.fixture(scope="module")
def image(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The files of the image, as its instructions say, and where its command runs."""
    root = tmp_path_factory.mktemp("image")
    (folder,) = said("WORKDIR")
    for line in said("COPY"):
        *sources, target = line.split()
        for source in sources:
            origin = built if source == "build/site" else places.ROOT / source
            to = root / folder.strip("/") / target
            if origin.is_dir():
                shutil.copytree(origin, to)
            else:
                to.mkdir(parents=True, exist_ok=True)
                shutil.copy(origin, to)
    return root / folder.strip("/")


@contextmanager
def running(image: Path, *more: str) -> Iterator[str]:
    """The address of the image's own command, on a free port, without any package."""
    (line,) = said("CMD")
    python, *words = json.loads(line)
    assert python == "python"
    command = [sys.executable, "-S", *words, "--port", "0", *more]
    with subprocess.Popen(command, cwd=image, env={}, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            found = AT.match(process.stdout.readline())
            assert found
            yield f"http://127.0.0.1:{found[1]}{found[2]}"
        finally:
            process.terminate()


@pytest.mark.parametrize("path", ["/", "/pond/"])
def test_the_image_serves_the_site_right(image: Path, path: str) -> None:
    with running(image, "--path", path) as address:
        assert address.endswith(path)
        lines, works = hosted.report(address)
    assert works, lines
    assert [line for line in lines[:-1] if not line.startswith("right: ")] == []


def test_the_image_runs_as_nobody_at_the_port_that_it_names() -> None:
    assert said("USER") == ["65534"]
    (line,) = said("CMD")
    words = json.loads(line)
    assert words[words.index("--port") + 1] in said("EXPOSE")
    assert words[words.index("--host") + 1] == "0.0.0.0"
    assert said("RUN") == [], "nothing is fetched"


def test_what_the_image_copies_is_not_left_out() -> None:
    lines = (places.ROOT / ".dockerignore").read_text(encoding="utf-8").splitlines()
    let_in = [line[1:] for line in lines if line.startswith("!")]
    copied = [source for line in said("COPY") for source in line.split()[:-1]]
    assert sorted(let_in) == sorted(copied)


@pytest.mark.parametrize("name", ["nginx.conf", "apache.conf"])
def test_web_servers_are_told_the_same_headers_and_types(name: str) -> None:
    told = (HOSTING / name).read_text(encoding="utf-8")
    for header, value in serve.HEADERS.items():
        if (name, header) != ("nginx.conf", "Vary"):  # it has a word of its own for that
            assert f'{header} "{value}"' in told
    for ending, kind in hosted.NEEDED.items():
        kind = kind.partition(";")[0]
        assert re.search(rf"{re.escape(kind)}\s[^\n]*\b{ending}\b", told), ending


def test_the_workflow_runs_commands_that_there_are_and_publishes_what_they_make() -> None:
    commands = re.findall(r"^\s+- run: (.+)$", WORKFLOW, re.MULTILINE)
    assert commands == ["python3 build/dev.py test", "python3 build/dev.py release"]
    for command in commands:
        assert command.split()[-1] in (dev.__doc__ or "")
    # Its packages have all three browsers; another's may lack one, and then the tests fail.
    assert "container: debian:" in WORKFLOW
    published = re.findall(r"^\s+path: (.+)$", WORKFLOW, re.MULTILINE)
    assert published == ["build/release", places.BUILT.relative_to(places.ROOT).as_posix()]
    assert "types: [published]" in WORKFLOW


def test_both_servers_lead_from_the_path_without_its_slash() -> None:
    nginx, apache = ((HOSTING / f"{name}.conf").read_text("utf-8") for name in ("nginx", "apache"))
    assert "location = /pond { absolute_redirect off; return 301 /pond/; }" in nginx
    assert "RedirectMatch 301 ^/pond$ /pond/" in apache


def test_the_reader_is_told_of_each_way_to_host_it() -> None:
    readme = (places.ROOT / "README.md").read_text(encoding="utf-8")
    for path in HOSTING.iterdir():
        assert f"hosting/{path.name}" in readme
