"""The assessment of one design: results in groups, margins, mass statement, cautions."""

import json
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NoReturn

from hoopline.errors import InputError
from hoopline.layout import Layout
from hoopline.requirement import Requirement
from hoopline.results import Band, Group, Margin, Margins, MassGroup, MassLine
from hoopline.schema import nearest, results, unknown_result

if TYPE_CHECKING:
    from hoopline import _core
    from hoopline.explanation import Explanation

# The parts stood in this module once: earlier pickles name it.
__all__ = ["Assessment", "Band", "Group", "Margin", "Margins", "MassLine"]


class Assessment:
    """What `Stage.assess` returns. All numbers in SI; it does not change.

    Results stand in groups, `assessment.ascent.apogee`, or by path, `assessment["ascent.apogee"]`.
    `print(assessment)` shows all of it as text.
    """

    __slots__ = ("_bands", "_content", "_groups", "_stage", "_text")
    _bands: str | Callable[[], str]
    _content: dict[str, Any]
    _groups: dict[str, Group]
    _stage: "str | _core.Stage | None"
    _text: str

    def __init__(
        self, text: str, bands: str | Callable[[], str], stage: "str | _core.Stage | None"
    ) -> None:
        content: dict[str, Any] = json.loads(text)
        given: dict[str, float] = content["results"]
        # In the order of the data, which JSON text does not promise to keep.
        content["results"] = {path: given[path] for path in results() if path in given}
        values: dict[str, dict[str, float]] = {}
        for path, value in content["results"].items():
            name, _, leaf = path.partition(".")
            values.setdefault(name, {})[leaf] = value
        groups = {name: Group(name, leaves) for name, leaves in values.items()}
        groups["margins"] = Margins(tuple(Margin(**row) for row in content["margins"]))
        object.__setattr__(self, "_text", text)
        object.__setattr__(self, "_bands", bands)
        object.__setattr__(self, "_stage", stage)
        object.__setattr__(self, "_content", content)
        object.__setattr__(self, "_groups", groups)

    @classmethod
    def from_json(cls, text: str) -> "Assessment":
        """Read a saved assessment, as `to_json` or `hoopline assess --json` wrote it.

        One of another version is read as far as paths go: `unread` holds the results this version
        does not know. The stage itself is not in it, so that `explain`, and exports that need the
        stage, ask for the stage file instead.

        Raises
        ------
        InputError
            The text is not that of an assessment; the message says what is wrong.

        Examples
        --------
        >>> import hoopline as hl
        >>> assessment = hl.Stage.load(hl.example("petrel_slim")).assess()
        >>> hl.Assessment.from_json(assessment.to_json()) == assessment
        True
        """
        from hoopline.saved import read

        content, bands = read(text)
        return cls(content, bands, None)

    @property
    def name(self) -> str:
        """Name of the stage."""
        return str(self._content["name"])

    @property
    def description(self) -> str:
        """Description of the stage, possibly empty."""
        return str(self._content["description"])

    @property
    def digest(self) -> str:
        """Digest of the stage's inputs."""
        return str(self._content["digest"])

    @property
    def version(self) -> str:
        """Version of hoopline that computed this."""
        return str(self._content["version"])

    @property
    def schema(self) -> int | None:
        """Number of the layout of its JSON; None for one saved before layouts had numbers."""
        number: int | None = self._content["schema"]
        return number

    @property
    def unread(self) -> Mapping[str, float]:
        """Results of a saved assessment that this version does not know, by path."""
        return MappingProxyType(self._content.get("unread", {}))

    @property
    def choices(self) -> Mapping[str, str]:
        """Every choice of the stage: the word chosen, by path."""
        return MappingProxyType(self._content["choices"])

    @property
    def on_record(self) -> Mapping[str, str]:
        """Names of metal, fibre and rule set on record, by path; empty for values of one's own."""
        return MappingProxyType(self._content["on_record"])

    @property
    def tables(self) -> Mapping[str, str]:
        """Tables and counts among the inputs, in words, by path."""
        return MappingProxyType(self._content["tables"])

    @property
    def results(self) -> Mapping[str, float]:
        """Every result that applies, by path, in SI."""
        return MappingProxyType(self._content["results"])

    @property
    def margins(self) -> Margins:
        """Margins of safety, smallest first."""
        margins = self._groups["margins"]
        assert isinstance(margins, Margins)  # noqa: S101 (for the type checker)
        return margins

    @property
    def governing(self) -> Margin | None:
        """The smallest margin, or None for a stage without a tank."""
        return next(iter(self.margins), None)

    @property
    def requirements(self) -> tuple[Requirement, ...]:
        """The requirement matrix: not met first, then by margin, smallest first."""
        return tuple(Requirement(**row) for row in self._content["requirements"])

    @property
    def met(self) -> bool:
        """Whether no margin is negative and no requirement is found not met."""
        margins = self.governing is None or self.governing.value >= 0.0
        return margins and all(line.status != "not met" for line in self.requirements)

    @property
    def mass_lines(self) -> tuple[MassLine, ...]:
        """Lines of the mass statement, propellant left out."""
        return tuple(MassLine(**row) for row in self._content["mass_lines"])

    @property
    def mass_groups(self) -> tuple[MassGroup, ...]:
        """The mass statement by group, propellant left out.

        Examples
        --------
        >>> import hoopline as hl
        >>> assessment = hl.Stage.load(hl.example("petrel_slim")).assess()
        >>> [(group.name, round(group.growth, 2)) for group in assessment.mass_groups]
        [('tank', 1.03), ('airframe', 0.73), ('motor', 0.95), ('item', 1.04)]
        """
        from hoopline.mass_groups import grouped

        return grouped(self.mass_lines)

    @property
    def maturities(self) -> Mapping[str, str]:
        """Classes of maturity that growth allowances rest on, and their sources."""
        return MappingProxyType(self._content["maturities"])

    @property
    def bands(self) -> tuple[Band, ...]:
        """What the known errors of the drag models mean for the apogee, one model at a time."""
        rows = json.loads(self._band_text())["bands"]
        return tuple(
            Band(**{**row, "span": tuple(row["span"]), "change": tuple(row["change"])})
            for row in rows
        )

    @property
    def band_together(self) -> tuple[float, float]:
        """All bands together, m of apogee: root of the sum of their squares."""
        low, high = json.loads(self._band_text())["band_together"]
        return low, high

    @property
    def band_bias(self) -> str:
        """What the bands do not hold, and which way it goes."""
        bias: str = json.loads(self._band_text())["band_bias"]
        return bias

    def _band_text(self) -> str:
        """Bands cost several ascents, so they are computed when somebody asks."""
        if not isinstance(self._bands, str):
            object.__setattr__(self, "_bands", self._bands())
        return str(self._bands)

    @property
    def propellant_lines(self) -> dict[str, tuple[MassLine, ...]]:
        """Propellant "at_ignition", and what is left of it "at_burnout"."""
        return {
            when: tuple(MassLine(**row) for row in rows)
            for when, rows in self._content["propellant_lines"].items()
        }

    @property
    def follow(self) -> Mapping[str, str]:
        """Follow rules: what stays when something else changes."""
        return MappingProxyType(self._content["follow"])

    @property
    def conditions(self) -> tuple[str, ...]:
        """Where and how it is launched: site, air, rail."""
        return tuple(self._content["conditions"])

    @property
    def inputs(self) -> tuple[Mapping[str, Any], ...]:
        """Every number that went in: path, value in SI, as shown, unit, origin, source, meaning."""
        if "inputs" not in self._content:
            # Half of the text of an assessment, and most of them are asked for results only.
            self._content["inputs"] = json.loads(self._compiled_stage().inputs())
        return tuple(MappingProxyType(row) for row in self._content["inputs"])

    @property
    def safety(self) -> str:
        """What these numbers do not show, in words that belong into every report."""
        text: str = self._content["safety"]
        return text

    @property
    def rule_set(self) -> Mapping[str, str] | None:
        """Name and source of the rule set, or None."""
        rule_set: dict[str, str] | None = self._content["rule_set"]
        return rule_set

    @property
    def meop_basis(self) -> Mapping[str, str] | None:
        """What the MEOP rests on and why, or None."""
        basis: dict[str, str] | None = self._content["meop_basis"]
        return basis

    @property
    def frontal_governed_by(self) -> str:
        """The part whose diameter sets the frontal area."""
        return str(self._content["frontal_governed_by"])

    @property
    def basis(self) -> tuple[str, ...]:
        """What was assessed: metal and fibre with their sources, closures, seams and plies."""
        return tuple(self._content["basis"])

    @property
    def stated(self) -> tuple[str, ...]:
        """Paths whose values were stated instead of computed."""
        return tuple(self._content["stated"])

    @property
    def cautions(self) -> tuple[str, ...]:
        """Sentences a reader must know before using the numbers."""
        return tuple(self._content["cautions"])

    def explain(self, path: str) -> "Explanation":
        """Say where a result comes from: formula, every number with unit and origin, sources.

        Parameters
        ----------
        path
            Dotted path of a result, such as "margins.girth_seam_proof" or "pressures.meop";
            "margins" for the one that governs; the id of a requirement for the result that
            decides it.

        Returns
        -------
        Explanation
            `print` it, or look at its `steps` and `terms`. For results of the ascent, which have
            no closed formula, it names the equations, what enters, and an estimate beside it.

        Raises
        ------
        InputError
            The path is unknown (the message names the nearest), is an input, or does not apply to
            this stage.

        Examples
        --------
        >>> import hoopline as hl
        >>> assessment = hl.Stage.load(hl.example("petrel_slim")).assess()
        >>> assessment.explain("pressures.proof").steps[-1].formula
        'proof_factor * meop'
        """
        from hoopline.explanation import Explanation

        path = self._meant(path)
        if not isinstance(path, str) or path not in self.results:
            raise unknown_result(str(path), self.results)
        return Explanation.of(self._compiled_stage().explain(path))

    def _meant(self, path: str) -> str:
        if path == "margins" and self.governing:
            return self.governing.path
        decided = (line.decided_by for line in self.requirements if line.id == path)
        return next(decided, None) or path

    def _compiled_stage(self) -> "_core.Stage":
        """Give the stage that was assessed; after unpickling it is made when somebody asks."""
        if self._stage is None:
            raise InputError(
                "this assessment was read from a file and does not hold its stage; "
                "load the stage file and assess it"
            )
        if isinstance(self._stage, str):
            from hoopline import _core

            object.__setattr__(self, "_stage", _core.Stage.restore(self._stage))
        assert not isinstance(self._stage, str)  # noqa: S101 (for the type checker)
        return self._stage

    @property
    def layout(self) -> Layout:
        """Outlines of vehicle and tank, for drawings to scale.

        Raises
        ------
        InputError
            The assessment was read from a file; outlines are drawn from the stage.
        """
        return Layout.read(json.loads(self._compiled_stage().layout()))

    def to_json(self) -> str:
        """Return the assessment as JSON text, SI units."""
        rows = {"inputs": [dict(row) for row in self.inputs]}
        content = self._content | rows | json.loads(self._band_text())
        return json.dumps(content, indent=2, ensure_ascii=False)

    def __getitem__(self, path: str) -> float:
        try:
            return self.results[path]
        except KeyError:
            raise KeyError(str(unknown_result(path, self.results))) from None

    def __getattr__(self, name: str) -> Group:
        if name.startswith("__"):
            raise AttributeError(name)
        groups: dict[str, Group] = object.__getattribute__(self, "_groups")
        try:
            return groups[name]
        except KeyError:
            hint = nearest(name, [known for known in dir(self) if not known.startswith("_")])
            raise AttributeError(f'an assessment has no "{name}"{hint}') from None

    def __setattr__(self, name: str, value: object) -> NoReturn:
        raise AttributeError("an assessment does not change")

    def __dir__(self) -> list[str]:
        return sorted({*super().__dir__(), *self._groups})

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Assessment):
            return NotImplemented
        # Requirements enter no number and so not the digest, but the judgement.
        return (self.digest, self.version, self.requirements) == (
            other.digest, other.version, other.requirements,
        )  # fmt: skip

    def __hash__(self) -> int:
        return hash((self.digest, self.version))

    def __reduce__(self) -> tuple[type["Assessment"], tuple[str, str, str | None]]:
        stage = self._stage
        if stage is not None and not isinstance(stage, str):
            stage = stage.store()
        return Assessment, (self._text, self._band_text(), stage)

    def __repr__(self) -> str:
        return f"<Assessment of {self.name!r}, digest {self.digest[:12]}>"

    def __str__(self) -> str:
        from hoopline.text import render

        return render(self)

    def _repr_html_(self) -> str:
        from hoopline.page import render

        return render(self)
