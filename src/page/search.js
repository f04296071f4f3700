// Where is the thing of that name? A text box that offers names while one types (ARIA combobox with a listbox).

let searchEntries = null;
const mostOffered = 20;

function comboboxAttributes(list) {
  return { role: "combobox", autocomplete: "off", spellcheck: "false", "aria-expanded": "false", "aria-autocomplete": "list", "aria-controls": list };
}

/** Everything that has a name: { kind, name, small, target, constraint }. */
function allEntries() {
  if (searchEntries) return searchEntries;
  const entries = [];
  const add = (kind, name, target, constraint = -1) => entries.push({ kind, name, small: name.toLowerCase(), target, constraint });
  bones.name.forEach((name, id) => add("bone", name, thing("bone", id)));
  data.properties.forEach((property, id) => add("property", property.name, thing("property", id)));
  data.objects.forEach((object, id) => add("object", object.name, thing("object", id)));
  data.constraints.forEach((constraint, id) => add("constraint", constraintName(id), thing("bone", constraint.bone), id));
  data.groups.forEach((_, id) => add("group", groupName(id), thing("group", id)));
  return (searchEntries = entries);
}

/** How well a name fits, less is better: the same, begins so, a word of it begins so, holds it; -1: not at all. */
function fitOf(name, wanted) {
  const at = name.indexOf(wanted);
  if (at < 0) return -1;
  if (at === 0) return name.length === wanted.length ? 0 : 1;
  return /[\p{L}\p{N}]/u.test(name[at - 1]) ? 3 : 2;
}

function findEntries(text, kinds) {
  const wanted = text.trim().toLowerCase();
  if (wanted === "") return [];
  const found = [];
  for (const entry of allEntries()) {
    const fit = kinds.includes(entry.kind) ? fitOf(entry.small, wanted) : -1;
    if (fit >= 0) found.push({ entry, fit: entry.kind === "constraint" ? fit + 4 : fit });
  }
  return found.sort((a, b) => a.fit - b.fit).map(({ entry }) => entry);
}

/** Makes a text box offer what fits, by keys and by pointer; `onChoose` gets the entry. */
function makeSearch(input, list, status, kinds, onChoose) {
  let offered = [];
  let active = -1;
  const close = () => {
    list.hidden = true;
    active = -1;
    input.setAttribute("aria-expanded", "false");
    input.removeAttribute("aria-activedescendant");
  };
  const activate = (index) => {
    active = index;
    [...list.children].forEach((node, i) => node.setAttribute("aria-selected", String(i === index)));
    if (index < 0) return input.removeAttribute("aria-activedescendant");
    input.setAttribute("aria-activedescendant", list.children[index].id);
    list.children[index].scrollIntoView({ block: "nearest" });
  };
  const choose = (index) => {
    close();
    status.textContent = "";
    onChoose(offered[index]);
  };
  const offer = () => {
    const found = findEntries(input.value, kinds);
    offered = found.slice(0, mostOffered);
    list.replaceChildren(
      ...offered.map((entry, index) => {
        const node = make("li", { role: "option", id: `${list.id}-${index}`, "aria-selected": "false" }, nameNode(entry.name), make("span", { class: "note" }, ` ${entry.kind}`));
        node.addEventListener("pointerdown", (event) => event.preventDefault());
        node.addEventListener("click", () => choose(index));
        return node;
      })
    );
    list.hidden = offered.length === 0;
    input.setAttribute("aria-expanded", String(!list.hidden));
    activate(list.hidden ? -1 : 0);
    status.textContent = input.value.trim() === "" ? "" : found.length === 0 ? "nothing of that name" : `showing ${offered.length} of ${found.length.toLocaleString("en")}`;
  };
  input.addEventListener("input", offer);
  input.addEventListener("blur", close);
  input.addEventListener("keydown", (event) => {
    const move = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (move && list.hidden) offer();
    else if (move) activate((active + move + offered.length) % offered.length);
    else if (event.key === "Enter" && !list.hidden && active >= 0) choose(active);
    else if (event.key === "Escape" && !list.hidden) close();
    else return;
    event.preventDefault();
    event.stopPropagation();
  });
}

function fillSearch() {
  const input = byId("search");
  makeSearch(input, byId("search-list"), byId("search-status"), ["bone", "property", "object", "constraint", "group"], (entry) => {
    input.value = "";
    if (entry.target.kind === "group") openAbout(entry.target);
    else openCard(entry.target, entry.constraint);
  });
}
