"""Addresses of digital accessories: each belongs to one decoder."""

from labelgen.model.description import Description
from labelgen.model.netlist import Netlist
from labelgen.problems import Problem


def overlapping_addresses(description: Description, _: Netlist) -> list[Problem]:
    """Reports addresses-overlap at each device that answers to an address of one with lower ones."""
    devices = {**description.points, **description.devices}
    runs = sorted((one.addresses, id_) for id_, one in devices.items() if one.addresses is not None)
    problems = []
    reaching: tuple[int, str] = (0, "")
    for (first, last), id_ in runs:
        if first <= reaching[0]:
            shared = min(last, reaching[0])
            which = f"address {first}" if first == shared else f"the addresses {first} to {shared}"
            problems.append(
                Problem(
                    code="addresses-overlap",
                    message=f"{id_} answers to {which}, and so does {reaching[1]}",
                    hint="Give one of them a run of its own; they would throw together.",
                    place=description.place_of(*description.device_path(id_), "addresses"),
                )
            )
        reaching = max(reaching, (last, id_))
    return problems
