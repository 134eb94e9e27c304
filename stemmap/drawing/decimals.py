"""Numbers among the words of maps and sheets, with the decimal mark of the country."""

from __future__ import annotations

from PySide6.QtCore import QLocale


class Decimal(float):
    """A number that any format writes with the country's decimal mark.

    Examples
    --------
    >>> f"{Decimal(12.62):.1f} m"
    '12.6 m'
    """

    __slots__ = ()

    def __format__(self, spec: str, /) -> str:
        """Write it; thousands are never grouped."""
        return super().__format__(spec).replace(".", QLocale().decimalPoint())
