// Builds what the scripts add to a page. Texts only ever go in as texts.
const make = (tag, settings, ...inside) => {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(settings || {})) {
    if (typeof value === "function") made.addEventListener(name, value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== null) made.setAttribute(name, value);
  }
  made.append(...inside);
  return made;
};
const all = (selector, within = document) => [...within.querySelectorAll(selector)];
const byId = (id) => document.getElementById(id);
const STAGES = ["fitted", "tested"];
