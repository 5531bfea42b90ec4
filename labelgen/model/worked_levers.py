"""Which lever works a device, as far as the device itself decides it: section 3 of the format."""

from labelgen.model.description import Device


def lever_of(device_id: str, device: Device, *, is_point: bool) -> str | None:
    """The lever that works a device: as named; a point's default is its id less `P` and a last `A` or `B`."""
    if device.lever is not None:
        return None if device.lever == "none" else device.lever
    if not is_point:
        return None
    bare = device_id.removeprefix("P") or device_id
    return bare[:-1] if len(bare) > 1 and bare[-1] in "AB" else bare
