// One wire a screen, in huge type, in the order of work; a tap anywhere goes on.
const rowsOfWork = all("table.work tbody tr");
const stop = make("button", { type: "button", class: "stop" }, "Close");
const where = make("p", { class: "where" });
const wireShown = make("div", { class: "one" });
const back = make("button", { type: "button" }, "← Back");
const on = make("button", { type: "button", class: "on" }, "Next →");
const sheet = make("dialog", { class: "walk", "aria-label": "One wire a screen" },
  make("div", { class: "top" }, where, stop), wireShown, make("div", { class: "bottom" }, back, on));
let place = -1;

const endOf = (cell) => {
  const end = make("div", { class: "walk-end" });
  const name = cell.querySelector("a").cloneNode(true);
  end.append(name, tickBoxes(cell.dataset.wire));
  return end;
};
const step = (by) => {
  let next = place + by;
  while (rowsOfWork[next] && !filter.leaves(rowsOfWork[next])) next += by;
  if (by < 0 && !rowsOfWork[next]) return;
  place = Math.min(next, rowsOfWork.length);
  const row = rowsOfWork[place];
  on.disabled = !row;
  if (!row) {
    where.textContent = "";
    wireShown.replaceChildren(make("p", { class: "finished" }, "That was the last wire."));
    return;
  }
  const table = row.closest("table"), caption = table.caption.textContent, strip = table.closest("section").querySelector("h2").textContent;
  where.replaceChildren(`${strip}, ${caption[0].toLowerCase()}${caption.slice(1)} `, make("span", { class: "whole" }, `${place + 1} of ${rowsOfWork.length}`));
  const [head, , cut] = row.cells, [from, to] = all("[data-wire]", row);
  const title = make("h2", { class: "huge", tabindex: "-1" });
  title.append(...[...head.childNodes].map((node) => node.cloneNode(true)));
  const details = make("p", { class: "walk-cut" });
  details.append(...[...cut.childNodes].map((node) => node.cloneNode(true)));
  wireShown.replaceChildren(title, endOf(from), make("p", { class: "walk-to", "aria-hidden": "true" }, "↓"), endOf(to), details);
  title.focus({ preventScroll: true });
  wireShown.scrollTop = 0;
};
const open = (first) => {
  place = first - 1;
  if (!sheet.open) sheet.showModal();
  step(1);
};
if (rowsOfWork.length) {
  back.addEventListener("click", () => step(-1));
  on.addEventListener("click", () => step(1));
  stop.addEventListener("click", () => sheet.close());
  wireShown.addEventListener("click", (event) => { if (!event.target.closest("a, label, input")) step(1); });
  sheet.addEventListener("keydown", (event) => {
    if (event.key === "ArrowRight") step(1);
    if (event.key === "ArrowLeft") step(-1);
  });
  sheet.addEventListener("close", () => rowsOfWork[Math.min(Math.max(place, 0), rowsOfWork.length - 1)].scrollIntoView({ block: "center" }));
  document.body.append(sheet);
  byId("tools").prepend(make("button", { type: "button", class: "start", click: () => open(0) }, "One wire a screen"));
  for (const title of all("main section > h2[id]").filter((one) => one.parentElement.querySelector("table.work"))) {
    const first = rowsOfWork.indexOf(title.parentElement.querySelector("table.work tbody tr"));
    const begins = make("div", { class: "begins" }, make("button", { type: "button", click: () => open(first), "aria-label": `One wire a screen from ${title.textContent} on` }, "Start here"));
    title.replaceWith(begins);
    begins.prepend(title);
  }
}
