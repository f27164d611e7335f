"""The command line as the checks call it."""

from click.testing import CliRunner

from hoopline.cli import main


def run(*arguments):
    return CliRunner().invoke(main, [str(argument) for argument in arguments])
