"""`hoopline completion`: lines for a shell that let it complete commands, options and files."""

import click
from click.shell_completion import get_completion_class

from hoopline.cli.ending import Refusal

_SHELLS = ("bash", "zsh", "fish")


@click.command("completion", short_help="Print what a shell needs to complete commands.")
@click.argument("shell", type=click.Choice(_SHELLS))
def command(shell: str) -> None:
    """Print what SHELL needs to complete this command.

    For the running shell: eval "$(hoopline completion bash)"; for every new one, put that line
    into its start-up file. The fish shell: hoopline completion fish | source.
    """
    from hoopline.cli import main

    found = get_completion_class(shell)
    if found is None:
        raise Refusal(f"no completion for {shell}")
    click.echo(found(main, {}, "hoopline", "_HOOPLINE_COMPLETE").source())
