"""What this program is: version, licences of what it is made with, and where things lie."""

import platform
from dataclasses import dataclass
from importlib import metadata

from PySide6.QtCore import qVersion
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QDialogButtonBox, QPushButton, QWidget

from wellbook import __version__
from wellbook.support import paths
from wellbook.support.translation import _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.theme import em
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import SUBTITLE, words
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table


@dataclass(frozen=True, slots=True)
class Part:
    """A library with its version and the licence it names."""

    name: str
    version: str
    licence: str


class AboutDialog(Dialog):
    """Names the version, every library with its licence, and the folder of this program."""

    def __init__(self, chooser: Chooser, parent: QWidget) -> None:
        super().__init__(_("About Wellbook"), parent, width=50, height=34)
        self._chooser = chooser
        said = _("Version {version}, with Python {python} and Qt {qt} on {system}.")
        self.version = words(
            said.format(
                version=__version__,
                python=platform.python_version(),
                qt=qVersion(),
                system=platform.platform(terse=True),
            )
        )
        self.area.add(
            self.version,
            words(
                _(
                    "Wellbook keeps the record of a private well. It shows how results compare "
                    "with published limits, and never says that water is safe to drink."
                )
            ),
            words(_("Settings and notes on trouble lie in {folder}.").format(folder=paths.data())),
            words(_("Made with"), factor=SUBTITLE, bold=True),
        )
        self.table = Table(_("Libraries and their licences"))
        self.model = RowsModel(_columns(), lambda part: part.name, self)
        self.model.show(parts())
        self.table.setModel(self.model)
        self.table.fit(stretch=2)
        self.table.arrange("libraries")
        self.table.setMinimumHeight(em(self) * 12)
        self.area.add(self.table)
        buttons = QDialogButtonBox()
        copy = buttons.addButton(_("C&opy"), QDialogButtonBox.ButtonRole.ActionRole)
        copy.clicked.connect(self._copy)
        folder = buttons.addButton(_("&Open the folder"), QDialogButtonBox.ButtonRole.ActionRole)
        folder.clicked.connect(lambda: self._chooser.show(paths.data()))
        self._close = buttons.addButton(_("&Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def default_button(self) -> QPushButton:
        """Return closes it: there is nothing else to do."""
        return self._close

    def _copy(self) -> None:
        """Copy versions and licences, for whoever is asked for help."""
        lines = [self.version.text()]
        lines += [f"{one.name}\t{one.version}\t{one.licence}" for one in self.model.rows]
        QGuiApplication.clipboard().setText("\n".join(lines))


def parts() -> tuple[Part, ...]:
    """The libraries that are installed for this program, in the order of their names."""
    try:
        required = metadata.requires("wellbook") or []
    except metadata.PackageNotFoundError:  # run from its files alone
        required = []
    names = {_name(line) for line in required if "extra ==" not in line}
    found = (_part(name) for name in sorted(names, key=str.casefold))
    return tuple(part for part in found if part is not None)


def _name(requirement: str) -> str:
    """`PySide6-Essentials` of `PySide6-Essentials<6.12,>=6.8; python_version < "3.12"`."""
    for place, sign in enumerate(requirement):
        if not (sign.isalnum() or sign in "-_."):
            return requirement[:place]
    return requirement


def _part(name: str) -> Part | None:
    try:
        told = metadata.metadata(name)
    except metadata.PackageNotFoundError:  # for another system, or left out of the bundle
        return None
    named = [*(told.get_all("License-Expression") or []), *(told.get_all("License") or [])]
    short = (line.strip() for line in named if len(line.strip().splitlines()) == 1)
    licence = next(filter(None, short), "") or _of_classifiers(told)
    return Part(told["Name"].replace("_", "-"), told["Version"], licence or _("see its own files"))


def _of_classifiers(told: metadata.PackageMetadata) -> str:
    kinds = [line for line in told.get_all("Classifier") or [] if line.startswith("License ::")]
    return ", ".join(kind.rpartition(" :: ")[2] for kind in kinds)


def _columns() -> tuple[Column, ...]:
    return (
        Column(_("Library"), lambda part: part.name),
        Column(_("Version"), lambda part: part.version),
        Column(_("Licence"), lambda part: part.licence),
    )
