"""The forms that the tag on a wire's end may have."""

from typing import Literal, get_args

FlagForm = Literal["fold", "wrap", "sleeve"]
"""Folded around the wire; wound around it, print under a clear tail; pushed over its end."""
FLAG_FORMS: tuple[FlagForm, ...] = get_args(FlagForm)
