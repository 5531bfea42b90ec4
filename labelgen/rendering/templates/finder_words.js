// Faults and measurements in words, as labelgen/tracing/in_words.py says them.
const wordsOf = (railway) => {
  const { data } = railway;
  const called = (point) => data.points[point][1];
  const ends = (points) => points.map(called).join(" and ");
  const plain = (number) => String(Number(number.toPrecision(6)));
  const touching = (fault) => (fault.kind === "stuck-contact" ? `a contact that stays made: ${ends(fault.where)}` : `${ends(fault.where)}, which touch`);
  const wire = ({ one, other, rest: [number, head, link] }) => {
    const screws = data.points[one][3] === 1 && data.points[other][3] === 1 ? "screws" : "ends";
    return link ? `the link ${called(one)}–${called(other)}, or either of its ${screws}`
      : `the wire ${number} (${head}) from ${called(one)} to ${called(other)}, or either of its ${screws}`;
  };
  const place = (faults) => {
    const [first] = faults;
    if (first.kind === "dead-supply") return `the supply ${data.shown[first.source.id]}, or its fuse`;
    if (first.kind === "swapped-pair") return `two wires that have changed places: ${first.wires}`;
    if (!first.part) return faults.map(touching).join(", or ");
    return first.part.kind === "wire" ? wire(first.part) : `${data.names[first.kind]} between ${ends(first.where)}`;
  };
  const lookThere = (faults) => data.lookThere[Object.keys(data.lookThere).find((kind) => faults.some((fault) => fault.kind === kind))];
  const task = ({ one, other, expected, lifted, hold }) => {
    const between = `between ${called(one)} and ${called(other)}`;
    if (expected === "volts") return `With the power on and no lever touched, measure the voltage ${between}.`;
    if (lifted) {
      const [number, head, link] = lifted.rest;
      const near = called(railway.beyondOf(lifted, one));
      return `${data.isolate} Take ${link ? "the link" : `wire ${number} (${head})`} out of ${near}, then measure the resistance ${between}${data.diodes.length ? ` (meter on its diode range, red lead at ${called(one)})` : ""}.`;
    }
    return `${data.isolate}${hold ? ` Hold ${hold}.` : ""} Measure the resistance ${between}.`;
  };
  const expected = (about) => {
    if (about.expected === "volts") {
      const volts = data.volts[about.supply];
      return volts === null ? "its full voltage" : `about ${plain(volts)} V`;
    }
    if (about.expected === "load") {
      if (about.load.kind === "diode") return "a diode: one way a reading, the other way none";
      const [ohms] = about.load.rest;
      return ohms === null ? "some resistance, but neither a short nor nothing" : `about ${plain(ohms)} ohms`;
    }
    return { joined: "under 1 ohm", apart: "well over 1 ohm", clear: "no connection" }[about.expected];
  };
  // The places that a reading leaves.
  const left = (found, asItShould) => found.places
    .filter(({ faults }) => faults.some((fault) => spoils(railway, fault, found.measure) !== asItShould))
    .map(({ faults }) => place(faults));
  return { place, task, expected, left, lookThere };
};
