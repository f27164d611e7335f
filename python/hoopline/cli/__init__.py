"""The command `hoopline`: one file per command, loaded when it is asked for."""

from importlib import import_module
from typing import Any

import click

from hoopline.cli.ending import INTERRUPTED, refusing

# In the order of the work: look, check, vary, weigh up, write down.
_COMMANDS = (
    "example", "check", "assess", "study", "compare", "report", "export", "schema", "catalogue",
    "demo", "completion",
)  # fmt: skip


class _Commands(click.Group):
    """A group whose commands stand in files of their own, so that a short one starts at once."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name in _COMMANDS:
            command: click.Command = import_module(f"hoopline.cli.{cmd_name}").command
            return command
        if not ctx.resilient_parsing:
            from hoopline.schema import nearest

            ctx.fail(f'there is no command "{cmd_name}"{nearest(cmd_name, _COMMANDS)}')
        return None

    def main(self, *args: Any, **kwargs: Any) -> Any:
        try:
            with refusing():
                return super().main(*args, **{**kwargs, "standalone_mode": False})
        except click.Abort:
            click.echo("stopped", err=True)
            raise SystemExit(INTERRUPTED) from None
        except click.ClickException as error:
            error.show()
            raise SystemExit(error.exit_code) from None


def _version(context: click.Context, _parameter: click.Parameter, asked: bool) -> None:
    if asked and not context.resilient_parsing:
        from hoopline import _core

        click.echo(f"hoopline {_core.version}")
        context.exit()


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.option(
    "--version", is_flag=True, is_eager=True, expose_value=False, callback=_version,
    help="Print the version and stop.",
)  # fmt: skip
def main() -> None:
    """Rocket-stage mass and drag trade studies.

    \b
    A command ends with
      0    done; where a stage was judged, it meets all its margins and requirements
      1    done, and some margin or requirement is not met, or a search found no design that
           meets all its bounds
      2    refused: an option, a file or a value in it is wrong, and the message says which
      130  stopped by Ctrl-C
    """  # noqa: D301 (the letter tells click to keep the lines)
