"""The texts beside the code say what is so."""

import re
import shutil
import subprocess
import tomllib

import pytest

TEXTS = ("README.md", "DEVELOPERS.md", "CHANGELOG.md")


def shell_blocks(text: str) -> list[str]:
    return re.findall(r"^```sh\n(.*?)^```$", text, flags=re.MULTILINE | re.DOTALL)


def headings(text: str) -> set[str]:
    """Anchors of a text's headings, as web pages of repositories make them."""
    without_blocks = re.sub(r"^```.*?^```$", "", text, flags=re.MULTILINE | re.DOTALL)
    titles = re.findall(r"^#+ (.+)$", without_blocks, flags=re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", title.lower()).replace(" ", "-") for title in titles}


def test_readme_starts_with_the_two_lines(checkout_root):
    blocks = shell_blocks((checkout_root / "README.md").read_text("utf-8"))
    assert blocks[:2] == ["python3 -m stemmap demo\n", "python3 -m tests\n"]
    assert "pip install -e '.[test]'\npytest\n" in blocks[2]


@pytest.mark.parametrize("name", TEXTS)
def test_links_lead_somewhere(checkout_root, name):
    text = (checkout_root / name).read_text("utf-8")
    for target in re.findall(r"\]\(([^)\s]+)\)", text):
        if re.match(r"[a-z]+:", target):
            continue
        file, _, anchor = target.partition("#")
        assert (checkout_root / (file or name)).exists(), target
        if anchor:
            assert anchor in headings((checkout_root / (file or name)).read_text("utf-8")), target


@pytest.mark.parametrize("name", TEXTS)
def test_paths_named_exist(checkout_root, name):
    """What stands in code type and begins with a folder of the checkout is there."""
    text = (checkout_root / name).read_text("utf-8")
    paths = re.findall(r"`((?:stemmap|tests|sample_data|resources|\.ci)/[\w./]*)`", text)
    assert [path for path in paths if not (checkout_root / path).exists()] == []


def test_toml_examples_can_be_read(checkout_root):
    text = (checkout_root / "README.md").read_text("utf-8")
    examples = re.findall(r"^```toml\n(.*?)^```$", text, flags=re.MULTILINE | re.DOTALL)
    assert examples
    for example in examples:
        assert tomllib.loads(example)


def test_everything_at_the_top_is_explained(checkout_root):
    listing = shutil.which("git") and subprocess.run(
        ["git", "ls-files"], cwd=checkout_root, capture_output=True, text=True, check=False
    )
    if not listing or listing.returncode != 0:
        pytest.skip("what belongs to the checkout is known to git only")
    names = {line.split("/")[0] for line in listing.stdout.splitlines()}
    text = (checkout_root / "DEVELOPERS.md").read_text("utf-8")
    assert {name for name in names if f"`{name}" not in text} == set()


def test_licence_names_what_is_bundled(checkout_root):
    text = (checkout_root / "LICENSE").read_text("utf-8")
    named = re.findall(r"^  ((?:sample_data|resources)/\S*)", text, flags=re.MULTILINE)
    assert {"sample_data/", "resources/"} <= set(named)
    assert [path for path in named if not (checkout_root / path).exists()] == []
    fonts = [*checkout_root.glob("resources/**/*.ttf"), *checkout_root.glob("resources/**/*.otf")]
    assert [font for font in fonts if font.relative_to(checkout_root).as_posix() not in text] == []


def test_licence_names_every_library(checkout_root):
    project = tomllib.loads((checkout_root / "pyproject.toml").read_text("utf-8"))["project"]
    names = {re.split(r"[-<>=; ]", line)[0].lower() for line in project["dependencies"]}
    text = (checkout_root / "LICENSE").read_text("utf-8").lower()
    assert {name for name in names if name not in text} == set()


def test_wheel_takes_sample_data_and_resources(checkout_root):
    project = tomllib.loads((checkout_root / "pyproject.toml").read_text("utf-8"))
    wheel = project["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert wheel["only-include"] == ["stemmap", "sample_data", "resources"]
    assert wheel["sources"] == {name: f"stemmap/{name}" for name in ("sample_data", "resources")}


def test_ci_runs_the_line_of_the_readme(checkout_root):
    """No second wording of the test line: .ci/run takes it out of README.md."""
    script = (checkout_root / ".ci" / "run").read_text("utf-8")
    assert "README.md" in script
    assert "-m tests" not in script
    assert "pytest" not in script
