"""furnlib: sizes that close, legs that lean, and full-size patterns for a one-person furniture shop.

``import furnlib as fl`` loads nothing but the table of names in ``__init__.pyi``, which the type
checker reads too, so that a misspelt name is an error; each module loads on first use.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
