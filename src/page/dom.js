// How are elements made and names shown? Texts only ever go in as texts, so that no name can become markup.

function byId(id) {
  return document.getElementById(id);
}

/** An element with attributes; those that are false, null or undefined are left out. Children are nodes or texts. */
function make(tag, attributes, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes || {})) {
    if (value === false || value === null || value === undefined) continue;
    node.setAttribute(name, value === true ? "" : String(value));
  }
  node.append(...children.filter((child) => child !== null && child !== undefined && child !== ""));
  return node;
}

function makeButton(text, onPress, attributes) {
  const node = make("button", { type: "button", ...attributes }, text);
  node.addEventListener("click", onPress);
  return node;
}

/** Ends around an ellipsis where a text is very long. */
function shortened(text, most = 60) {
  const letters = Array.from(text);
  return letters.length <= most ? text : `${letters.slice(0, most - 24).join("")}…${letters.slice(-20).join("")}`;
}

/** A name, cut in the middle where it is very long; whole in the title. Direction of writing stays inside. */
function nameNode(name, look = "name") {
  if (name === "") return make("i", {}, "(no name)");
  const text = shortened(name, look === "name" ? 60 : 120);
  return make("bdi", { class: look, title: text === name ? null : name }, text);
}

function counted(number, noun) {
  return `${number.toLocaleString("en")} ${noun}${number === 1 ? "" : "s"}`;
}

/** Reads out what happened to who cannot see it. */
function say(text) {
  byId("said").textContent = text;
}

/**
 * A list that shows `most` items at first. The rest is a press away, and the list says how many there are.
 * `makeItem(item)` gives the inside of one.
 */
function listInPart(items, most, makeItem, attributes) {
  const list = make("ul", { class: "plain", ...attributes });
  const add = (from, to) => list.append(...items.slice(from, to).map((item) => make("li", {}, makeItem(item))));
  add(0, most);
  if (items.length <= most) return list;
  const more = make("p", { class: "more" }, `showing ${most} of ${items.length.toLocaleString("en")} `);
  more.append(
    makeButton("show all", () => {
      add(most, items.length);
      more.remove();
      list.children[most].querySelector("button, a")?.focus();
    })
  );
  return make("div", {}, list, more);
}
