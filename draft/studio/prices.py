"""A studio's own prices, as they stand in `[prices]` of its file: nothing is reckoned here.

    [prices]
    currency    = "EUR"
    sold_by     = "10 cm"           # cloth is cut off the bolt in such steps; else as the amounts are
    hour        = 24                # of work
    page        = 0.08              # printed at home or by the studio

    [prices.cloth]                  # a metre, unless it says otherwise; `cloth` is any that is not named
    cloth       = 12.50
    lining      = "7.90 per metre"
    "rib knit"  = "11 per yard"

    [prices.notions]                # by the names that patterns give them: each, or by length, or so many
    elastic     = "1.20 per metre"
    zip         = 3.50
    buttons     = "2.40 per 6"

    [prices.garment]                # what each garment costs besides
    label       = 0.35
    parcel      = 4.20

A cost is then worked out so: cloth, its length to buy rounded up to `sold_by` times its price by length; a notion, its
count times the price of one (`Price.of_count`) or its length times the price by length (`Price.of_length`); with each
garment the sum of `garment`. Money is decimal, and is rounded by who reckons, once at the end of a line.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from decimal import Decimal
from typing import Literal

from draft.base.record import dataclass

Per = Literal["metre", "yard", "each"]
MM: Mapping[str, Decimal] = {"metre": Decimal(1000), "yard": Decimal("914.4")}
ANY_CLOTH = "cloth"
"""The name of the price of any cloth that has none of its own."""


@dataclass(frozen=True)
class Price:
    """So much money for a metre, a yard, or so many of a thing; whole `packs` of these are bought."""

    amount: Decimal
    per: Per
    count: int = 1

    @property
    def by_length(self) -> bool:
        """Whether it is of a length."""
        return self.per in MM

    def of_length(self, mm: float) -> Decimal:
        """What so many mm cost. Raises ValueError where it is no price of a length."""
        if not self.by_length:
            raise ValueError("this price is of a thing, not of a length")
        return self.amount * Decimal(str(mm)) / MM[self.per]

    def of_count(self, count: int) -> Decimal:
        """What so many of a thing cost: whole packs of them. Raises ValueError where it is a price of a length."""
        if self.by_length:
            raise ValueError("this price is of a length, not of a thing")
        return self.amount * -(-count // self.count)


@dataclass(frozen=True)
class Prices:
    """All prices of a studio: of cloth and notions by their names, of an hour, a printed page, and of each garment.

    `sold_by` is the step in mm that cloth is sold in.
    """

    currency: str = ""
    cloth: Mapping[str, Price] = field(default_factory=dict, hash=False)
    notions: Mapping[str, Price] = field(default_factory=dict, hash=False)
    garment: Mapping[str, Decimal] = field(default_factory=dict, hash=False)
    hour: Decimal | None = None
    page: Decimal | None = None
    sold_by: float | None = None

    def of_cloth(self, name: str) -> Price | None:
        """The price of a cloth by its name, or of any cloth; None where neither is there."""
        return self.cloth.get(name) or self.cloth.get(ANY_CLOTH)

    @property
    def each_garment(self) -> Decimal:
        """What each garment costs besides cloth and notions."""
        return sum(self.garment.values(), Decimal(0))


NO_PRICES = Prices()
