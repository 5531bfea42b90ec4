// Above the ticks: how far the work is, and a choice to see only what is left.
const places = all("[data-wire]");
const filter = {
  stage: -1,
  // Whether something of a row or a way is left to do.
  leaves: (row) => filter.stage < 0 || all("[data-wire]", row).some((place) => !ticks.has(place.dataset.wire, filter.stage)),
};
const tools = byId("tools");
if (tools && places.length) {
  const rows = [...new Set(places.map((place) => place.closest("tr, .way")))];
  const progress = make("p", { class: "progress", role: "status" });
  const show = () => {
    const [fitted, tested] = STAGES.map((_, stage) => places.filter((place) => ticks.has(place.dataset.wire, stage)).length);
    progress.textContent = ticks.kept
      ? `${fitted} of ${places.length} fitted, ${tested} tested`
      : "This browser keeps no ticks: allow it to store data for these pages.";
    for (const row of rows) row.hidden = !filter.leaves(row);
    for (const part of all(".thing, table.work")) {
      const inside = all("tr", part).filter((row) => row.querySelector("[data-wire]"));
      part.hidden = inside.length > 0 && inside.every((row) => row.hidden);
    }
  };
  const choice = make("select", { id: "left", change: () => { filter.stage = Number(choice.value); show(); } },
    make("option", { value: "-1" }, "everything"),
    make("option", { value: "0" }, "what is not fitted"),
    make("option", { value: "1" }, "what is not tested"));
  tools.append(make("label", { for: "left" }, "Show", choice), progress);
  tools.hidden = false;
  document.addEventListener("ticks", show);
  show();
}
