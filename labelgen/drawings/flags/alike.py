"""Chooses the one form in which all four faces of a wire's two flags are set."""

from collections.abc import Sequence

from labelgen.drawings.flags.faces import PREFERRED_HEAD, Face, Form, Set
from labelgen.model.drawing import Shape

FORMS: tuple[Form, ...] = ("line", "corner", "row", "small")


def alike(faces: Sequence[Face]) -> list[list[Shape]]:
    """The faces of a wire's two flags in one form, so that its head has one size, whichever end is looked at.

    The first form with a large head; where none has, that with the larger one. Stem and code stand side by side as long
    as both can be read so.
    """
    for all_said in (True, False):
        best: list[Set] = []
        beside = 0.0
        for form in FORMS:
            found = [face.in_form(form, beside=beside, all_said=all_said) for face in faces]
            tried = [one for one in found if one is not None]
            if form == "line":
                beside = max(
                    (face.note_width for face, one in zip(faces, found, strict=True) if one is None), default=0
                )
            if len(tried) == len(faces) and (not best or tried[0].head > best[0].head):
                best = tried
            if best and (form in ("row", "small") or best[0].head >= PREFERRED_HEAD):
                return [one.shapes for one in best]
    return [face.three_rows() for face in faces]
