// Ticks to another phone: as a file, which knows each end by its name; or as a code, short enough for a QR, two bits an end
// in the order of this page, with a sum by which pages of another making are told apart.
const order = all("[data-wire]").map((place) => place.dataset.wire);
const sumOf = (ends) => {
  let sum = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(ends.join("\n"))) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
  return sum.toString(16).padStart(8, "0");
};
const code = () => {
  const bytes = new Uint8Array(Math.ceil(order.length / 4));
  order.forEach((end, i) => { bytes[i >> 2] |= (ticks.now[end] & 3) << ((i & 3) * 2); });
  const text = btoa(String.fromCharCode(...bytes)).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
  return `ticks=${sumOf(order)}.${text.replace(/A+$/, "")}`;
};
// What a code holds; nothing for what is no code of these pages.
const decoded = (text) => {
  const found = /ticks=([0-9a-f]{8})\.([\w-]*)/.exec(text);
  const longest = Math.ceil(order.length / 3) * 4;
  if (!found || found[1] !== sumOf(order) || found[2].length > longest) return null;
  const bytes = atob(found[2].padEnd(longest, "A").replace(/-/g, "+").replace(/_/g, "/"));
  return Object.fromEntries(order.map((end, i) => [end, (bytes.charCodeAt(i >> 2) >> ((i & 3) * 2)) & 3]));
};

const carry = byId("carry");
const told = make("p", { role: "status", class: "told" });
const tell = (others, otherwise) => {
  if (!others) { told.textContent = otherwise; return; }
  const added = ticks.add(others);
  told.textContent = added ? `${added} ${added === 1 ? "tick" : "ticks"} added.` : "All of these were there already.";
};
const fromFile = async (file) => {
  try {
    const read = JSON.parse(await file.text());
    if (typeof read.railway !== "string" || Object.prototype.toString.call(read.ticks) !== "[object Object]") throw new TypeError();
    const own = read.railway === document.documentElement.dataset.railway;
    tell(own ? read.ticks : null, `That file is of another railway: ${read.railway.slice(0, 80)}`);
  } catch {
    tell(null, "That is no file of ticks.");
  }
};
const save = make("a", { class: "button", download: "ticks.json", href: "#carry", click: () => {
  const content = JSON.stringify({ railway: document.documentElement.dataset.railway, ticks: ticks.now });
  save.href = URL.createObjectURL(new Blob([content], { type: "application/json" }));
} }, "Save as a file");
const file = make("input", { type: "file", id: "ticks-file", accept: "application/json,.json", change: () => file.files[0] && fromFile(file.files[0]) });
const shown = make("div", { class: "shown" });
const show = () => {
  const web = location.protocol.startsWith("http");
  const text = web ? `${location.href.split("#")[0]}#${code()}` : code();
  const rows = qrRows(text);
  const copy = make("textarea", { readonly: true, rows: "4", "aria-label": "The ticks as text" });
  copy.value = text;
  shown.replaceChildren(...(rows ? [qrPicture(rows)] : []), make("p", { class: "soft" },
    !rows ? "These are too many for a QR: save them as a file, or copy the text."
      : web ? "Scan it with the other phone, or copy the text to it."
        : "Scan it with the other phone, and paste there what it reads."), copy);
};
const pasted = make("textarea", { rows: "3", id: "pasted", autocomplete: "off", spellcheck: "false" });
if (order.length) {
  carry.append(make("h2", {}, "Carry the ticks to another phone"),
    make("p", {}, "They stay on this phone. What comes from another is added; nothing is taken away."),
    make("div", { class: "doing" }, save, make("button", { type: "button", click: show }, "Show as a QR and text")),
    shown,
    make("label", { for: "ticks-file" }, "Take them from a file"), file,
    make("label", { for: "pasted" }, "Or paste the text"), pasted,
    make("div", { class: "doing" }, make("button", { type: "button", click: () => tell(decoded(pasted.value), "That is no text of ticks, or it is of pages that were made at another time: use a file.") }, "Add what I pasted")),
    told);
  carry.hidden = false;
}
const arrived = location.hash.includes("ticks=") && order.length ? decoded(location.hash) : null;
if (arrived) {
  const count = Object.values(arrived).reduce((sum, bits) => sum + (bits & 1) + (bits >> 1), 0);
  const question = make("div", { class: "arrived", role: "alert" }, make("p", {}, `This link brings ${count} ticks from another phone.`),
    make("button", { type: "button", click: () => { tell(arrived); question.replaceChildren(told); history.replaceState(null, "", location.pathname); } }, "Add them"));
  byId("main").prepend(question);
}
