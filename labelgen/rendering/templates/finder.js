// The fault finder, as labelgen/tracing does it: the same trees, faults, likelihoods and measurements, in the same order.
const SOUND = { touching: null, moved: null };
const METAL = ["wire", "pin", "bridge"];
const MOST = 64, FEW = 60, GOOD_ENOUGH = 0.9, LIFTED = 0.6;
const unique = (things) => [...new Set(things)];
const listed = (map, key) => map.get(key) || map.set(key, []).get(key);

class Railway {
  constructor(data) {
    this.data = data;
    this.parts = data.parts.map(([kind, one, other, rank, ...rest], id) => ({ id, kind, one, other, rank, rest }));
    this.sources = data.sources.map(([id, plus, minus, pulse, fedBy]) => ({ id, plus, minus, pulse, fedBy }));
    this.acts = data.acts.map(([shown, made]) => ({ shown, made: made.map((part) => this.parts[part]) }));
    this.tasks = data.tasks.map(([act, source, load, ends]) => ({
      act: this.acts[act], source: this.sources[source], load: load < 0 ? null : this.parts[load],
      ends: load < 0 ? null : ends, rails: load < 0 ? ends : [],
    }));
    this.growTrees();
    this.joining = this.byNet([...data.always, ...data.diodes]);
    this.loads = this.byNet(data.loads);
    this.joints = new Set([...this.joining.values()].flat().flatMap((part) => [part.one, part.other]));
    this.deads = this.sources.map((source) => this.dead(source));
    this.changes = data.changes.map((change) => this.change(change));
    this.breaks = new Map();
    this.held = new Map();
    this.holding = new Map();
    this.indexChanges();
  }

  growTrees() {
    this.partsAt = new Map();
    for (const part of this.parts.slice(0, this.data.metal)) {
      listed(this.partsAt, part.one).push(part);
      listed(this.partsAt, part.other).push(part);
    }
    this.net = new Map();
    this.roots = [];
    this.pointsOf = [];
    this.above = new Map();
    this.depth = new Map();
    const starts = [...this.partsAt.keys()], isSupply = (point) => this.thing(point).startsWith("supply:");
    for (const root of [...starts.filter(isSupply), ...starts.filter((point) => !isSupply(point))]) {
      if (!this.net.has(root)) this.grow(root);
    }
  }

  grow(root) {
    const number = this.roots.length, ahead = [root];
    this.roots.push(root);
    this.pointsOf.push([root]);
    this.net.set(root, number);
    this.depth.set(root, 0);
    while (ahead.length) {
      const here = ahead.pop();
      for (const part of this.partsAt.get(here)) {
        const there = this.beyondOf(part, here);
        if (this.net.has(there)) continue;
        this.net.set(there, number);
        this.depth.set(there, this.depth.get(here) + 1);
        this.above.set(there, [here, part]);
        this.pointsOf[number].push(there);
        ahead.push(there);
      }
    }
  }

  thing(point) { return this.data.points[point][2]; }
  isDevice(point) { return this.data.points[point][3] === 2; }
  beyondOf(part, point) { return point === part.one ? part.other : part.one; }

  byNet(ids) {
    const found = new Map();
    for (const part of ids.map((id) => this.parts[id])) {
      for (const point of [part.one, part.other]) {
        if (this.net.has(point)) listed(found, this.net.get(point)).push(part);
      }
    }
    return found;
  }

  between(one, other) {
    const there = [], back = [];
    while (one !== other) {
      const deeper = this.depth.get(one) >= this.depth.get(other);
      const [above, part] = this.above.get(deeper ? one : other);
      (deeper ? there : back).push(part);
      if (deeper) one = above; else other = above;
    }
    return [...there, ...back.reverse()];
  }

  hangingOn(start, without) {
    const seen = new Set([start]), ahead = [start];
    while (ahead.length) {
      const here = ahead.pop();
      for (const part of this.partsAt.get(here)) {
        const there = this.beyondOf(part, here);
        if (part !== without && !seen.has(there)) { seen.add(there); ahead.push(there); }
      }
    }
    return seen;
  }

  // what works

  netOf(point, change) {
    const net = change.moved && change.moved.has(point) ? change.moved.get(point) : this.net.get(point);
    return change.touching && net === change.touching[1] ? change.touching[0] : net;
  }

  joined(net, change) {
    const nets = new Set([net]);
    if (change.touching && change.touching.includes(net)) change.touching.forEach((one) => nets.add(one));
    const to = change.moved ? [...change.moved.values()] : [];
    if (to.includes(net)) to.forEach((one) => nets.add(one));
    return [...nets].flatMap((one) => this.joining.get(one) || []);
  }

  reach(start, made, change, back) {
    const first = this.netOf(start, change);
    if (first === undefined) return new Map();
    const now = new Map();
    for (const part of made) {
      for (const point of [part.one, part.other]) {
        const net = this.netOf(point, change);
        if (net !== undefined) listed(now, net).push(part);
      }
    }
    const found = new Map([[first, null]]), ahead = [first];
    while (ahead.length) {
      const here = ahead.shift();
      for (const part of [...(now.get(here) || []), ...this.joined(here, change)]) {
        const ways = part.kind !== "diode" ? [[part.one, part.other], [part.other, part.one]]
          : back ? [[part.other, part.one]] : [[part.one, part.other]];
        for (const [left, entered] of ways) {
          const there = this.netOf(entered, change);
          if (this.netOf(left, change) === here && there !== undefined && !found.has(there)) {
            found.set(there, { part, left, entered });
            ahead.push(there);
          }
        }
      }
    }
    return found;
  }

  both(source, made, change) {
    return [this.reach(source.plus, made, change, false), this.reach(source.minus, made, change, true)];
  }

  feeds(ends, plus, minus, change) {
    return plus.has(this.netOf(ends[0], change)) && minus.has(this.netOf(ends[1], change));
  }

  works(task, change) {
    const [plus, minus] = this.both(task.source, task.act.made, change);
    if ([...plus.keys()].some((net) => minus.has(net)) || this.isHeld(task.source, change)) return false;
    if (task.ends) return this.feeds(task.ends, plus, minus, change);
    return task.rails.every(([point, first]) => (first ? plus : minus).has(this.netOf(point, change)));
  }

  isHeld(source, change) {
    if (!this.held.has(source)) this.held.set(source, new Map());
    const held = this.held.get(source);
    if (!held.has(change)) held.set(change, this.looksHeld(source, change));
    return held.get(change);
  }

  looksHeld(source, change) {
    const [plus, minus] = this.both(source, [], change);
    if ([...plus.keys()].some((net) => minus.has(net))) return true;
    if (!source.pulse) return false;
    const nets = new Set(plus.keys());
    if (change.touching && plus.has(change.touching[0])) nets.add(change.touching[1]);
    for (const [point, net] of change.moved || []) if (plus.has(net)) nets.add(this.net.get(point));
    return unique([...nets].flatMap((net) => this.loads.get(net) || [])).some((load) =>
      this.feeds([load.one, load.other], plus, minus, change) || this.feeds([load.other, load.one], plus, minus, change));
  }

  trail(point, source, reached) {
    const found = [];
    for (let step = reached.get(this.net.get(point)); step; step = reached.get(this.net.get(point))) {
      found.push(...this.between(point, step.entered), step.part);
      point = step.left;
    }
    return [...found, ...this.between(point, source)];
  }

  path(task) {
    const { source } = task, [plus, minus] = this.both(source, task.act.made, SOUND);
    if (!task.load) {
      return task.rails.flatMap(([point, first]) =>
        first ? this.trail(point, source.plus, plus) : this.trail(point, source.minus, minus));
    }
    return [...this.trail(task.ends[0], source.plus, plus), task.load, ...this.trail(task.ends[1], source.minus, minus)];
  }

  doing(task) {
    const parts = this.path(task), sources = [task.source.id];
    let here = task.source, above;
    while ((above = this.sources.find((source) => source.id === here.fedBy))) {
      for (const terminal of [above.plus, above.minus]) {
        const inlets = this.pointsOf[this.net.get(terminal)].filter((point) => this.thing(point) === this.thing(here.plus));
        inlets.forEach((inlet) => parts.push(...this.between(inlet, terminal)));
      }
      sources.push(above.id);
      here = above;
    }
    return { task, parts: new Set(parts), sources };
  }

  // what can be wrong

  fault(kind, where, place, rest) {
    return { kind, where, place, part: null, source: null, change: SOUND, weight: this.data.weights[kind], ...rest };
  }

  dead(source) {
    return this.fault("dead-supply", [source.plus, source.minus], `supply ${source.id}`, { source });
  }

  change([kind, where, wires, moves]) {
    if (moves) {
      const moved = new Map(moves.flatMap(([root, points]) => points.map((point) => [point, this.net.get(root)])));
      return this.fault(kind, where, `swap ${wires}`, { wires, change: { touching: null, moved } });
    }
    const touching = where.map((point) => this.net.get(point));
    const place = `touching ${[...touching].sort((a, b) => a - b)}`;
    return this.fault(kind, where, place, { change: { touching, moved: null } });
  }

  // which of the changes spoil a task: found by its nets, not by trying each

  indexChanges() {
    this.touching = new Map();
    this.moving = new Map();
    for (const fault of this.changes) {
      const [one, other] = fault.change.touching || [];
      for (const [here, there] of fault.change.touching ? [[one, other], [other, one]] : []) {
        if (!this.touching.has(here)) this.touching.set(here, new Map());
        listed(this.touching.get(here), there).push(fault);
      }
      for (const point of fault.change.moved ? fault.change.moved.keys() : []) listed(this.moving, point).push(fault);
    }
  }

  closeTo({ source, act, ends, rails }) {
    const [plus, minus] = this.both(source, act.made, SOUND), nets = new Set([...plus.keys(), ...minus.keys()]);
    const joints = [...act.made.flatMap((part) => [part.one, part.other]), ...this.joints];
    const further = [...nets, ...joints.map((point) => this.net.get(point))];
    const points = [source.plus, source.minus, ...(ends || rails.map(([point]) => point)), ...joints];
    const touching = [...nets].map((net) => this.touching.get(net)).filter(Boolean);
    return [
      ...touching.flatMap((beside) => further.flatMap((net) => beside.get(net) || [])),
      ...points.flatMap((point) => this.moving.get(point) || []),
    ];
  }

  spoilersOf(task) {
    if (!this.works(task, SOUND)) return this.changes;
    if (!this.holding.has(task.source)) {
      this.holding.set(task.source, this.changes.filter((fault) => this.isHeld(task.source, fault.change)));
    }
    const close = unique(this.closeTo(task)).filter((fault) => !this.works(task, fault.change));
    return [...close, ...this.holding.get(task.source)];
  }

  breaksOf(part) {
    if (!this.breaks.has(part)) this.breaks.set(part, this.newBreaks(part));
    return this.breaks.get(part);
  }

  newBreaks(part) {
    const place = `part ${part.id}`, ends = [part.one, part.other];
    const kinds = { pin: "bad-pin", bridge: "bad-joint", contact: "dead-contact", "own-contact": "dead-contact", load: "open-coil", diode: "open-diode" };
    if (part.kind !== "wire") return [this.fault(kinds[part.kind], ends, place, { part })];
    return [...ends.map((end) => this.fault("bad-joint", [end], place, { part })), this.fault("broken-wire", ends, place, { part })];
  }
}

// whether something is not as it should be when a fault is there

const causeOf = (fault) => fault.part || (fault.source ? fault.source.id : fault);
const causesOf = (railway, about) => {
  if (!about.causes) {
    const { parts, task, sources } = about, { deads, changes } = railway;
    const others = task ? [...sources, ...railway.spoilersOf(task)]
      : [...deads, ...changes].filter((fault) => spoils(railway, fault, about)).map(causeOf);
    about.causes = new Set([...parts, ...others]);
  }
  return about.causes;
};
const spoils = (railway, fault, about) => {
  if (fault.part) return about.parts.has(fault.part);
  if (fault.source) return about.expected === "volts" && fault.source.id === about.supply;
  return changedBy(railway, fault, about);
};
const changedBy = (railway, fault, about) => {
  const { change } = fault, { one, other, expected, load } = about;
  const source = railway.sources.find((each) => each.id === about.supply);
  const same = (a, b) => railway.netOf(a, change) === railway.netOf(b, change);
  if (expected === "volts") return railway.isHeld(source, change);
  if (expected === "clear") return fault.where.some((point) => about.beyond.has(point)) && railway.isHeld(source, change);
  if (about.hold || (expected === "joined" && !change.moved)) return false;
  if (load) {
    const straight = same(one, load.one) && same(other, load.other), turned = same(one, load.other) && same(other, load.one);
    return same(one, other) || !(straight || turned);
  }
  return same(one, other) !== (expected === "joined");
};

// measurements

const measure = (one, other, expected, rest) => {
  const found = { one, other, expected, parts: new Set(), load: null, hold: "", supply: "", lifted: null, beyond: new Set(), ...rest };
  found.key = [one, other, found.hold, found.lifted ? found.lifted.id : ""].join(" ");
  return found;
};
const some = (things) => {
  const step = Math.max(1, Math.floor(things.length / MOST));
  return things.filter((_, i) => i % step === 0);
};
const joinedMeasure = (railway, one, other) => measure(one, other, "joined", { parts: new Set(railway.between(one, other)) });
const through = (railway, load, one, other) => {
  const known = railway.net.has(load.one) && railway.net.has(load.other);
  const parts = known ? [load, ...railway.between(one, load.one), ...railway.between(load.other, other)] : [load];
  return measure(one, other, "load", { parts: new Set(parts), load });
};
const along = (railway, parts) => {
  const found = [], byNet = new Map();
  for (const part of parts.filter((each) => METAL.includes(each.kind))) {
    listed(byNet, railway.net.get(part.one)).push(part.one, part.other);
    if (parts.length <= FEW) found.push(joinedMeasure(railway, part.one, part.other));
  }
  for (const [net, all] of byNet) {
    const points = unique(all), root = railway.roots[net];
    const far = (point) => railway.between(root, point).length;
    const nearest = points.reduce((best, point) => (far(point) < far(best) ? point : best));
    for (const start of unique([root, nearest])) {
      found.push(...some(points).filter((point) => point !== start).map((point) => joinedMeasure(railway, start, point)));
    }
  }
  return found;
};
const across = (railway, parts) => {
  const found = [], loads = parts.filter((part) => part.kind === "load");
  for (const part of parts) {
    if (part.kind.endsWith("contact")) {
      const act = railway.acts.find((each) => each.made.includes(part));
      found.push(measure(part.one, part.other, "joined", { parts: new Set([part]), hold: act ? act.shown : "" }));
    } else if (part.kind === "load" || part.kind === "diode") found.push(through(railway, part, part.one, part.other));
  }
  for (const load of loads) {
    const near = railway.net.get(load.one), far = railway.net.get(load.other);
    if (near === undefined || far === undefined || railway.pointsOf[near].length > 12) continue;
    const only = unique(railway.loads.get(near) || []).every((each) =>
      each === load || ![railway.net.get(each.one), railway.net.get(each.other)].includes(far));
    if (only) found.push(...railway.pointsOf[near].map((point) => through(railway, load, point, railway.roots[far])));
  }
  return found;
};
const ofChanges = (railway, faults) => faults.flatMap(({ where, change }) => {
  if (change.touching) return [measure(where[0], where[1], "apart")];
  if (!change.moved) return [];
  return where.flatMap((one, i) => where.slice(i + 1).flatMap((other) => {
    if (railway.net.get(one) === railway.net.get(other)) return [joinedMeasure(railway, one, other)];
    return railway.isDevice(one) || railway.isDevice(other) ? [] : [measure(one, other, "apart")];
  }));
});
const halves = (railway, faults) => railway.sources.flatMap((source) => {
  const net = railway.net.get(source.plus);
  const suspects = faults.filter((fault) => fault.change.touching && fault.change.touching.includes(net) && railway.isHeld(source, fault.change));
  const points = unique(suspects.flatMap((fault) => fault.where.filter((point) => railway.net.get(point) === net)));
  const ways = suspects.length > 1 ? points.map((point) => railway.between(source.plus, point)) : [];
  return some(unique(ways.flat().filter((part) => part.kind === "wire"))).map((part) => {
    const far = railway.depth.get(part.other) > railway.depth.get(part.one) ? part.other : part.one;
    return measure(far, source.minus, "clear", { supply: source.id, lifted: part, beyond: railway.hangingOn(far, part) });
  });
});
const measuresFor = (railway, faults) => {
  const parts = unique(faults.map((fault) => fault.part).filter(Boolean));
  const sources = unique(faults.map((fault) => fault.source).filter(Boolean));
  const volts = sources.map((source) => measure(source.plus, source.minus, "volts", { supply: source.id }));
  const found = new Map();
  for (const one of [...along(railway, parts), ...across(railway, parts), ...(faults.length <= FEW ? ofChanges(railway, faults) : []), ...volts, ...halves(railway, faults)]) {
    if (!found.has(one.key)) found.set(one.key, one);
  }
  return [...found.values()];
};
const troubleOf = (railway, { one, other, hold, expected, lifted }) =>
  Number(railway.thing(one) !== railway.thing(other)) + Number(Boolean(hold)) + 0.5 * (expected === "volts") + 2 * Boolean(lifted);

// from what is known to what may be wrong, and what to measure next

const product = (numbers) => numbers.reduce((sum, each) => sum * each, 1);
class Guesses {
  constructor(masks, wrong) {
    this.byMask = new Map();
    for (const [fault, mask] of masks) listed(this.byMask, mask).push(fault);
    const ordered = [...this.byMask.keys()].sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
    if (this.byMask.has(wrong)) {
      this.byMask = new Map([[wrong, this.byMask.get(wrong)]]);
      this.pairs = [[wrong]];
      this.together = 1;
      return;
    }
    this.pairs = ordered.flatMap((a, i) => ordered.slice(i + 1).filter((b) => (a | b) === wrong).map((b) => [a, b]));
    this.together = this.pairs.length ? 2 : 0;
    if (!this.together) {
      const bits = (mask) => mask.toString(2).replaceAll("0", "").length;
      const most = Math.max(0, ...ordered.map(bits));
      this.pairs = ordered.filter((mask) => bits(mask) === most).map((mask) => [mask]);
    }
  }

  weigh(counts) {
    return new Map([...this.byMask].map(([mask, faults]) => [mask, faults.reduce((sum, fault) => sum + (counts(fault) ? fault.weight : 0), 0)]));
  }

  likelihoods() {
    const weight = this.weigh(() => true), share = new Map();
    let total = 0;
    for (const pair of this.pairs) {
      const both = product(pair.map((mask) => weight.get(mask)));
      total += both;
      for (const mask of pair) share.set(mask, (share.get(mask) || 0) + both);
    }
    return new Map([...share].flatMap(([mask, part]) => this.byMask.get(mask).map((fault) => [fault, part / total * fault.weight / weight.get(mask)])));
  }

  chanceOfRight(railway, about) {
    const weight = this.weigh(() => true), right = this.weigh((fault) => !spoils(railway, fault, about));
    const sum = (weights) => this.pairs.reduce((all, pair) => all + product(pair.map((mask) => weights.get(mask))), 0);
    const total = sum(weight);
    return total ? sum(right) / total : 1;
  }
}

const masksOf = (railway, known) => {
  const wanted = known.filter((item) => item.spoiled).map((item) => item.about);
  const masks = new Map(), works = new Set();
  for (const item of known.filter((each) => !each.spoiled)) causesOf(railway, item.about).forEach((cause) => works.add(cause));
  wanted.forEach((about, i) => {
    for (const cause of causesOf(railway, about)) masks.set(cause, (masks.get(cause) || 0n) | 1n << BigInt(i));
  });
  const parts = unique(wanted.flatMap((about) => [...about.parts].sort((a, b) => a.rank - b.rank)));
  const found = new Map();
  for (const fault of [...parts.flatMap((part) => railway.breaksOf(part)), ...railway.deads, ...railway.changes]) {
    const cause = causeOf(fault);
    if (masks.has(cause) && !works.has(cause)) found.set(fault, masks.get(cause));
  }
  return [found, (1n << BigInt(wanted.length)) - 1n];
};
const nextMeasure = (railway, guesses, done) => {
  const rated = measuresFor(railway, [...guesses.likelihoods().keys()]).filter((one) => !done.has(one.key)).map((about) => {
    const right = guesses.chanceOfRight(railway, about);
    return { about, right, split: Math.min(right, 1 - right) * (about.lifted ? LIFTED : 1) };
  });
  const top = rated.reduce((most, one) => Math.max(most, one.split), 0);
  let best = null;
  for (const one of rated.filter((each) => each.split >= GOOD_ENOUGH * top && each.split > 1e-9)) {
    one.ease = -troubleOf(railway, one.about);
    if (!best || one.ease > best.ease || (one.ease === best.ease && one.split > best.split)) best = one;
  }
  return best ? best.about : null;
};
// of the one place that is left, the measurement that it must spoil; null where something proves it already
const proofOf = (railway, faults, known, done) => {
  const place = new Set(faults.map(causeOf)), works = new Set();
  for (const item of known.filter((each) => !each.spoiled)) causesOf(railway, item.about).forEach((cause) => works.add(cause));
  const proves = (about) => [...causesOf(railway, about)].every((cause) => works.has(cause) || place.has(cause));
  if (known.some((item) => item.spoiled && proves(item.about))) return null;
  const sure = measuresFor(railway, faults).filter((one) =>
    !done.has(one.key) && !one.lifted && faults.every((fault) => spoils(railway, fault, one)));
  const order = (a, b) => proves(b) - proves(a) || troubleOf(railway, a) - troubleOf(railway, b) || a.parts.size - b.parts.size;
  return sure.sort(order)[0] || null;
};
// Known: evidence with whether it is spoiled. Suspects, likeliest first; places; how many faults it takes; what to measure.
const look = (railway, known, skipped) => {
  const [masks, wrong] = masksOf(railway, known);
  if (!wrong) return { suspects: [], places: [], together: 0, measure: null };
  const guesses = new Guesses(masks, wrong);
  const suspects = [...guesses.likelihoods()].map(([fault, likelihood]) => ({ fault, likelihood })).sort((a, b) => b.likelihood - a.likelihood);
  const grouped = new Map();
  for (const suspect of suspects) listed(grouped, suspect.fault.place).push(suspect);
  const places = [...grouped.values()].map((group) => ({
    likelihood: group.reduce((sum, each) => sum + each.likelihood, 0), faults: group.map((each) => each.fault),
  })).sort((a, b) => b.likelihood - a.likelihood);
  const done = new Set([...known.map((item) => item.about.key).filter(Boolean), ...skipped]);
  const next = nextMeasure(railway, guesses, done);
  const proof = next || places.length !== 1 ? null : proofOf(railway, suspects.map(({ fault }) => fault), known, done);
  return { suspects, places, together: guesses.together, measure: next || proof };
};
