// Ticks for each end of each wire: kept on this phone, by railway, wire and end, so that an end that moves loses its own.
const KEPT_AS = `labelgen ticks: ${document.documentElement.dataset.railway}`;
const ticks = {
  kept: true,
  now: {},
  read() {
    try {
      const found = JSON.parse(localStorage.getItem(KEPT_AS) || "{}");
      this.now = found && typeof found === "object" ? found : {};
    } catch {
      this.kept = false;
    }
    document.dispatchEvent(new Event("ticks"));
  },
  write() {
    try {
      localStorage.setItem(KEPT_AS, JSON.stringify(this.now));
    } catch {
      this.kept = false;
    }
    document.dispatchEvent(new Event("ticks"));
  },
  has(end, stage) {
    return Boolean(this.now[end] & (1 << stage));
  },
  set(end, stage, on) {
    const bits = on ? this.now[end] | (1 << stage) : this.now[end] & ~(1 << stage);
    if (bits) this.now[end] = bits;
    else delete this.now[end];
    this.write();
  },
  // Those of another phone come to those of this one; none is taken away. How many are new.
  add(others) {
    let added = 0;
    for (const [end, bits] of Object.entries(others)) {
      const fresh = bits & 3 & ~this.now[end];
      if (Number.isInteger(bits) && fresh) {
        this.now[end] |= fresh;
        added += (fresh & 1) + (fresh >> 1);
      }
    }
    this.write();
    return added;
  },
};

const tickBoxes = (end) => {
  const [wire, at] = [end.slice(0, end.indexOf("@")), end.slice(end.indexOf("@") + 1)];
  const boxes = STAGES.map((word, stage) => {
    const box = make("input", { type: "checkbox", change: () => ticks.set(end, stage, box.checked) });
    const show = () => { box.checked = ticks.has(end, stage); };
    document.addEventListener("ticks", show);
    show();
    return make("label", { class: "tick" }, box, make("span", { class: "hidden" }, `wire ${wire} at ${at} `), word);
  });
  return make("span", { class: "ticks" }, ...boxes);
};

const tickWords = (end) => {
  const words = make("span", { class: "state" });
  const show = () => {
    words.replaceChildren(...STAGES.filter((_, stage) => ticks.has(end, stage)).map((word) => make("span", {}, `✓ ${word}`)));
  };
  document.addEventListener("ticks", show);
  return words;
};

for (const place of all("[data-wire]")) {
  place.append(place.closest("table.work") ? tickWords(place.dataset.wire) : tickBoxes(place.dataset.wire));
}
window.addEventListener("storage", () => ticks.read());
window.addEventListener("pageshow", () => ticks.read());
ticks.read();
