"""The examples of the README run as printed, in order and in one namespace."""

import re
import shlex
from pathlib import Path
from typing import Any

import pytest
from command_line import run

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def commands() -> list[tuple[str, str]]:
    """Return every `$ hoopline ...` line with the lines printed below it."""
    found = []
    for block in blocks("console"):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, _, output = part.partition("\n")
            if command.startswith("hoopline"):
                found.append((command, output))
    return found


def test_there_is_something_to_run():
    assert blocks("python")


def test_python_blocks(monkeypatch, capsys):
    """Run the blocks; `# -> text` behind a line says what the line prints."""
    monkeypatch.chdir(ROOT)
    namespace: dict[str, Any] = {}
    for block in blocks("python"):
        exec(compile(block, "README.md", "exec"), namespace)  # noqa: S102
        printed = [line.strip() for line in capsys.readouterr().out.splitlines()]
        for expected in re.findall(r"# -> (.*)$", block, re.MULTILINE):
            assert expected.strip() in printed, f"{expected!r} is not printed by:\n{block}"


@pytest.mark.parametrize(("command", "output"), commands())
def test_commands(monkeypatch, command, output):
    """Compare what a command prints; a line `...` in the README stands for any lines."""
    monkeypatch.chdir(ROOT)
    result = run(*shlex.split(command)[1:])
    assert result.exit_code == 0, result.output
    pattern = "".join(
        r"(?:.*\n)*?" if line.strip() == "..." else re.escape(line) + r" *\n"
        for line in output.rstrip("\n").split("\n")
    )
    assert re.fullmatch(pattern, result.stdout.rstrip("\n") + "\n"), result.stdout
