// Finds anything by what it is called: strips, levers, devices, holes, and every wire by its head or number.
const SHOWN = 40;
const known = JSON.parse(byId("data").textContent).map(([name, words, href]) => ({
  name, words, href, key: `${name} ${words}`.toLowerCase(), first: name.toLowerCase(),
}));
const found = make("ul", { class: "found" });
const count = make("p", { class: "soft", role: "status" });
// Whole names first, then what begins so, then what has it anywhere.
const rank = (one, wanted) => {
  const names = [one.first, one.first.split(" ").pop()];
  return names.includes(wanted) ? 0 : names.some((name) => name.startsWith(wanted)) ? 1 : 2;
};
const search = () => {
  const wanted = box.value.trim().toLowerCase();
  const words = wanted.split(/\s+/).filter(Boolean);
  const hits = words.length ? known.filter((one) => words.every((word) => one.key.includes(word))) : [];
  hits.sort((a, b) => rank(a, wanted) - rank(b, wanted));
  found.replaceChildren(...hits.slice(0, SHOWN).map((one) => make("li", {},
    make("a", { href: one.href }, make("b", {}, make("bdi", {}, one.name)), " ", make("bdi", { class: "name" }, one.words)))));
  count.textContent = !wanted ? "" : hits.length ? `${hits.length} found${hits.length > SHOWN ? `, the first ${SHOWN}` : ""}` : "Nothing is called that.";
};
const box = make("input", { type: "search", id: "wanted", autocomplete: "off", spellcheck: "false", input: search });
byId("search").append(make("label", { for: "wanted" }, "Find a strip, lever, device, head or wire number"), box, count, found);
byId("search").hidden = false;
