// Choosing what works and what does not, by tapping; then one measurement after the other until one place is left.
const railway = new Railway(JSON.parse(byId("data").textContent));
const words = wordsOf(railway);
const BEGINNINGS = [
  "No one or two faults explain all of that. The likeliest that explains most of it:",
  "Where the fault may be, likeliest first:",
  "It takes two faults to explain that. Where they may be, likeliest first:",
];
const MOST_SAID = 8;
const said = new Map();
let readings = [];
const doings = new Map();

const doingOf = (task) => doings.get(task) || doings.set(task, railway.doing(railway.tasks[task])).get(task);
const knownNow = () => [
  ...["dead", "good"].flatMap((state) => [...said].filter(([, one]) => one.state === state).flatMap(([, one]) =>
    one.tasks.map((task) => ({ about: doingOf(task), spoiled: state === "dead" })))),
  ...readings.filter((one) => !one.skipped).map(({ about, spoiled }) => ({ about, spoiled })),
];
const lookNow = () => look(railway, knownNow(), readings.filter((one) => one.skipped).map((one) => one.about.key));

const outcome = make("section", { class: "outcome", "aria-labelledby": "outcome" });
const answer = (about, settings) => () => { readings.push({ about, ...settings }); refresh(); byId("outcome").focus(); };
const measurement = (found) => {
  const { measure: about } = found;
  if (!about) {
    return [make("p", { class: "next" }, found.places.length === 1
      ? `${words.lookThere(found.places[0].faults)} ${railway.data.noMore}`
      : "No measurement tells these apart: look at each of them.")];
  }
  const means = (asItShould) => {
    const places = words.left(found, asItShould);
    const nothing = found.places.length === 1 ? railway.data.notThat : "something else is wrong as well";
    return places.length === 1 ? places[0] : places.length ? `one of ${places.length} places` : nothing;
  };
  return [
    make("h3", {}, found.places.length === 1 ? railway.data.toBeSure : "Measure next"),
    make("p", { class: "next" }, words.task(about)),
    make("p", { class: "next" }, "It should read ", make("strong", {}, words.expected(about)), "."),
    make("div", { class: "answers" },
      make("button", { type: "button", click: answer(about, { spoiled: false }) }, make("b", {}, "It does"), make("span", {}, means(true))),
      make("button", { type: "button", click: answer(about, { spoiled: true }) }, make("b", {}, "It does not"), make("span", {}, means(false)))),
    make("button", { type: "button", class: "quiet", click: answer(about, { skipped: true }) }, "I cannot measure that"),
  ];
};
const suspectsOf = (found) => {
  if (!found.places.length) return [make("p", {}, "Nothing on paper explains that: look for what the description does not know.")];
  const listing = make("ol", { class: "suspects" }, ...found.places.slice(0, MOST_SAID).map(({ likelihood, faults }) => {
    const share = `${Math.round(likelihood * 100)} %`;
    return make("li", {}, make("b", { class: "share" }, share), make("meter", { min: "0", max: "1", value: String(likelihood), "aria-hidden": "true" }), make("span", {}, words.place(faults)));
  }));
  const more = found.places.length - MOST_SAID;
  return [make("p", {}, BEGINNINGS[found.together]), listing, ...(more > 0 ? [make("p", { class: "soft" }, `and ${more} more places`)] : []), ...measurement(found)];
};
const refresh = () => {
  const title = make("h2", { id: "outcome", tabindex: "-1" }, "Where it may be");
  const isDead = [...said.values()].some((one) => one.state === "dead");
  const found = isDead ? lookNow() : null;
  outcome.replaceChildren(title, ...(found ? suspectsOf(found) : [make("p", { class: "soft" }, "Say above what does not work. What does work helps as much.")]),
    make("div", { class: "doing" },
      ...(readings.length ? [make("button", { type: "button", click: () => { readings.pop(); refresh(); } }, "Take the last answer back")] : []),
      ...(said.size ? [make("button", { type: "button", click: again }, "Start again")] : [])));
};
const again = () => {
  said.clear();
  readings = [];
  for (const button of all("[aria-pressed]", byId("finder"))) button.setAttribute("aria-pressed", "false");
  refresh();
};
const choose = (word, tasks, state, buttons) => {
  const now = said.get(word);
  if (now && now.state === state) said.delete(word);
  else said.set(word, { state, tasks });
  readings = [];
  const chosen = said.get(word);
  for (const [own, button] of Object.entries(buttons)) button.setAttribute("aria-pressed", String(Boolean(chosen) && chosen.state === own));
  refresh();
};
const choice = ([word, tasks]) => {
  const buttons = {};
  for (const [state, text] of [["dead", "dead"], ["good", "works"]]) {
    buttons[state] = make("button", { type: "button", class: state, "aria-pressed": "false", click: () => choose(word, tasks, state, buttons) },
      make("span", { class: "hidden" }, `${word} `), text);
  }
  return make("li", { "data-word": word }, make("b", {}, make("bdi", {}, word)), buttons.dead, buttons.good);
};
const groups = railway.data.words.map(([name, entries]) =>
  make("details", { class: "group" }, make("summary", {}, make("bdi", {}, name)), make("ul", { class: "choices" }, ...entries.map(choice))));
const sift = () => {
  const wanted = wantedBox.value.trim().toLowerCase();
  for (const group of groups) {
    const rows = all("li", group), named = group.querySelector("summary").textContent.toLowerCase().includes(wanted);
    for (const row of rows) row.hidden = !named && !row.dataset.word.toLowerCase().includes(wanted);
    group.hidden = rows.every((row) => row.hidden);
    group.open = Boolean(wanted) && !group.hidden;
  }
};
const wantedBox = make("input", { type: "search", id: "wanted", autocomplete: "off", spellcheck: "false", input: sift });
byId("finder").append(
  make("section", { "aria-labelledby": "what" },
    make("h2", { id: "what" }, "What works, and what does not"),
    make("p", {}, "Try each thing once, and tap what it did. 5N is lever 5 thrown to normal; a device stands for all that it does."),
    make("label", { for: "wanted" }, "Show those called"), wantedBox, ...groups),
  outcome);
byId("finder").hidden = false;
byId("finder").hunt = { railway, words, lookNow, readings: () => readings, said, doingOf, refresh, answer };
refresh();
