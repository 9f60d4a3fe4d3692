"""Orders: a customer's garment from plain data to a folder, one by a function, or many that may be stopped and go on.

For a shop's own program the interface is `Order`, `make_order`, `Made` and `Refused`; it is kept stable:

    from pathlib import Path
    from draft.orders import Order, make_order

    order = Order("A-1017", "marlpit", measures={"bust_girth": "98 cm", "waist_girth": "83 cm", "hip_girth": "104 cm",
                  "stature": "168 cm"}, styles={"sleeve": "long"}, pages=("a4",), language="de")
    became = make_order(order, Path("packs"))
    if became.is_made:
        send(Path("packs") / became.folder, became.files)    # each file with its size and SHA-256
    else:
        tell(became.reasons, became.fixes)                   # in words, without a figure of anybody's body

`order_from` makes an `Order` of plain JSON data, and `became_data` plain data of what became of it. A function may be
called from several processes at once; within one, from one thread at a time.

Given orders, one or a table of them, it calls what the command calls for one person and gives packs, tables and a
journal. Below it are `pack` and all that drafts; it must not know the command, nor the page.
"""

from draft.orders.became import ClothLength, Made, MadeFile, Refused, became_data
from draft.orders.one_order import Order
from draft.orders.order_data import order_from
from draft.orders.order_made import make_order

__all__ = ["ClothLength", "Made", "MadeFile", "Order", "Refused", "became_data", "make_order", "order_from"]
