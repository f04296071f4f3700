// What is there to know about the chosen bone, property or object?

const card = byId("card");
let cardListeners = []; // what has to be said anew when the state changes
let cameFrom = null; // who gets the focus back

function thingButton(target, attributes) {
  return makeButton(nameNode(nameOf(target)), () => openCard(target), { class: "link", "data-thing": aboutOf(target), ...attributes });
}

/** In the findings and tables: opens the card, and has the drawing in sight as well. */
function jumpButton(target) {
  return makeButton(
    nameNode(nameOf(target)),
    () => {
      openCard(target);
      byId("drawings").scrollIntoView();
    },
    { class: "link" }
  );
}

function closeCard() {
  if (card.hidden) return;
  card.hidden = true;
  document.body.classList.remove("has-card");
  chosenThing = null;
  choosePath([]);
  (cameFrom && cameFrom.isConnected ? cameFrom : surface).focus();
  cameFrom = null;
}

function openCard(target, highlighted = -1) {
  if (card.hidden || !card.contains(document.activeElement)) cameFrom = document.activeElement;
  chosenThing = target;
  pathThings = [];
  cardListeners = [];
  card.hidden = false;
  document.body.classList.add("has-card");
  const title = make("h2", { tabindex: "-1", id: "card-title" }, make("bdi", { class: "name" }, nameOf(target)));
  const close = makeButton("Close", closeCard, { id: "card-close" });
  card.setAttribute("aria-label", `Chosen ${target.kind}`);
  card.replaceChildren(make("div", { class: "card-head" }, title, close), factsNode(target));
  if (target.kind === "bone") addBoneParts(target.id, highlighted);
  if (target.kind === "property") addPropertyParts(target.id);
  card.append(...reachParts(target), make("h3", {}, "Pages with it"), pagesNode(target));
  card.scrollTop = 0;
  showInDrawing(target);
  refreshMarks();
  if (highlighted >= 0) byId(`constraint-${highlighted}`)?.scrollIntoView({ block: "nearest" });
  title.focus({ preventScroll: true });
  noteInAddress(target.kind, nameOf(target));
}

function addFact(list, term, ...content) {
  list.append(make("dt", {}, term), make("dd", {}, ...content));
}

function factsNode(target) {
  const list = make("dl", {});
  if (target.kind === "bone") {
    const group = bones.group[target.id];
    addFact(list, "role", roleWords[bones.role[target.id]]);
    addFact(list, "group", makeButton(nameNode(groupName(group)), () => openAbout(thing("group", group)), { class: "link" }));
    const parent = bones.parent[target.id];
    addFact(list, "parent", parent < 0 ? "none" : thingButton(thing("bone", parent)));
    addFact(list, "level", `${data.order.level[target.id]}, slack ${data.order.slack[target.id]}`);
    if (cyclesOf.has(target.id)) addFact(list, "cycle", cycleButton(cyclesOf.get(target.id)));
    if (propertiesOn.has(target.id))
      addFact(list, "properties", listInPart(propertiesOn.get(target.id), 6, (id) => thingButton(thing("property", id))));
  } else if (target.kind === "property") {
    const property = data.properties[target.id];
    if (property.on >= 0) addFact(list, "on", thingButton(thing("bone", property.on)));
    if (property.driver !== undefined) addFact(list, "driven", make("code", {}, data.drivers[property.driver][1]));
    else addFact(list, "default", String(property.default));
    const range = [property.min ?? "no least", property.max ?? "no greatest"];
    if (property.min !== undefined || property.max !== undefined) addFact(list, "range", `${range[0]} to ${range[1]}`);
    if (property.stops) addFact(list, "stops", property.stops.map(([name, value]) => `${name} = ${value}`).join(", "));
  } else {
    addFact(list, "follows", listInPart(data.objects[target.id].follows, 6, (id) => thingButton(thing("bone", id))));
  }
  addFact(list, "place", make("span", { class: "place" }, placeText(placeOf(target))));
  return list;
}

function pagesNode(target) {
  const pages = pagesWith(aboutOf(target));
  if (pages.length === 0) return make("p", {}, "none");
  const show = (index) => makeButton(nameNode(data.pages[index].title, "title"), () => showInDrawing(target, index), { class: "link" });
  return listInPart(pages, 6, show);
}

function cycleButton(cycle) {
  return makeButton(`cycle ${cycle + 1}`, () => openAbout(thing("cycle", cycle)), { class: "link" });
}

function addBoneParts(bone, highlighted) {
  if (deformOf.has(bone)) card.append(...verdictParts(deformOf.get(bone)));
  const findings = findingsOf.get(bone) || [];
  if (findings.length > 0) {
    const findingLine = (id) => make("div", {}, severityNode(data.findings[id].severity), ` ${data.findings[id].check}: ${data.findings[id].message}`);
    card.append(make("h3", {}, "Findings"), listInPart(findings, 5, findingLine));
  }
  addStack(bone, highlighted);
}

function verdictParts(row) {
  const now = make("p", {});
  const tell = () => {
    const here = verdictInState(row);
    now.replaceChildren(verdictNode(row.verdict), ` (state: ${data.state})`);
    if (here.settings.length > 0) now.append(make("br"), verdictNode(here.verdict), ` at ${settingsName(here.settings)}, as chosen`);
  };
  tell();
  cardListeners.push(tell);
  const parts = [make("h3", {}, "Verdict"), now];
  if (row.worse) {
    const state = (worse) =>
      make("div", {}, makeButton(settingsName(worse.settings), () => chooseState(worse.settings), { class: "link" }), " ", verdictNode(worse.verdict),
        worse.blamed >= 0 ? ` by what ${constraintName(worse.blamed)} does there` : null);
    parts.push(make("p", {}, "Worse at (press to choose the state):"), listInPart(row.worse, 6, state));
  }
  if (row.controls && row.controls.length > 0)
    parts.push(make("p", {}, `Moved by ${counted(row.controls.length, "control")} (state: ${data.state}):`), listInPart(row.controls, 6, (id) => thingButton(thing("bone", id))));
  return parts;
}

function addStack(bone, highlighted) {
  const ids = constraintsOf[bone];
  card.append(make("h3", {}, "Stack"));
  if (ids.length === 0) {
    card.append(make("p", {}, "no constraints"));
    return;
  }
  const switches = switchesOfStack(bone);
  for (const index of switches.slice(0, 8)) card.append(switchSelect(index, cardListeners));
  if (switches.length > 8) card.append(make("p", { class: "note" }, `showing 8 of ${switches.length} switches; all stand above the drawings`));
  const note = make("p", { class: "note" });
  const list = make("ol", { class: "stack" });
  const tell = () => {
    note.textContent = `In the order in which they run, at ${stateName()}.`;
    list.replaceChildren(...ids.map((id) => constraintNode(id, highlighted)));
  };
  tell();
  cardListeners.push(tell);
  card.append(note, list);
}

function addPropertyParts(id) {
  const index = data.switches.findIndex((each) => each.property === id);
  if (index >= 0) card.append(make("h3", {}, "Stands at"), switchSelect(index, cardListeners));
  const row = data.fan_out.find(([property]) => property === id);
  if (row)
    card.append(
      make("p", {}, `Reaches ${counted(row[1], "weight")}, ${counted(row[2], "channel")} and ${row[3]} other ${row[3] === 1 ? "property" : "properties"}; ` +
        `moves ${counted(row[5], "bone")}.`)
    );
}

/** What it needs, what it moves, and the path to another thing. */
function reachParts(target) {
  const path = make("div", { id: "path" });
  const parts = [make("h3", {}, "Path"), pathSearch(target, path), path];
  for (const forward of [false, true]) {
    const way = forward ? "moves" : "needs";
    const straight = make("div", { id: `straight-${way}` });
    const all = make("div", { id: `all-${way}` });
    parts.push(make("h3", {}, forward ? "Moves" : "Needs"), straight, make("h4", {}, forward ? "All that it moves" : "All that it needs"), all);
    const show = ({ thing: other, makers }) => make("div", {}, thingButton(other), make("span", { class: "note" }, ` ${makersText(makers)}`));
    const found = findStraight(target, forward);
    straight.append(found.length > 0 ? listInPart(found, 12, show) : make("p", {}, "nothing"));
    const tell = () => all.replaceChildren(allNode(target, forward, path));
    tell();
    cardListeners.push(tell);
  }
  return parts;
}

function makersText(makers) {
  const texts = [...makers].map(makerText);
  return texts.slice(0, 3).join("; ") + (texts.length > 3 ? `; and ${texts.length - 3} more` : "");
}

function allNode(target, forward, path) {
  const found = findReach(target, forward, false);
  if (found.length === 0) return make("p", {}, "nothing");
  const here = new Set(findReach(target, forward, true).map((row) => aboutOf(row.thing)));
  const roles = [0, 0, 0, 0];
  for (const { thing: each } of found) if (each.kind === "bone") ++roles[bones.role[each.id]];
  const words = roleWords.map((word, role) => (roles[role] > 0 ? `${roles[role]} ${word}` : "")).filter(Boolean);
  const others = found.filter((row) => row.thing.kind !== "bone").length;
  if (others > 0) words.push(`${others} other`);
  const show = ({ thing: each, hops }) =>
    make("div", {}, thingButton(each), make("span", { class: "note" }, ` ${hops === 0 ? "straight" : `${hops} away`}${here.has(aboutOf(each)) ? "" : ", not in this state"} `),
      makeButton("path", () => showPath(target, each, forward, path), { "aria-label": `path ${forward ? "to" : "from"} ${nameOf(each)}` }));
  return make("div", {}, make("p", {}, `${found.length.toLocaleString("en")}: ${words.join(", ")}; ${here.size} of them at ${stateName()}`), listInPart(found, 20, show));
}

/** The path from one to the other, or else the one back. */
function showPathBetween(target, other, path) {
  showPath(target, other, findPath(target, other) !== null, path);
}

function pathSearch(target, path) {
  const input = make("input", { type: "text", id: "path-search", ...comboboxAttributes("path-list"), placeholder: "the other end" });
  const list = make("ul", { id: "path-list", role: "listbox", "aria-label": "Other ends", hidden: true });
  const status = make("p", { class: "status", role: "status" });
  makeSearch(input, list, status, ["bone", "property", "object"], ({ target: other }) => {
    input.value = nameOf(other);
    showPathBetween(target, other, path);
  });
  return make("div", { class: "search" }, make("label", { for: "path-search" }, "Path between it and"), input, list, status);
}

function showPath(target, other, forward, node) {
  const [start, end] = forward ? [target, other] : [other, target];
  const path = findPath(start, end);
  if (!path) {
    choosePath([]);
    node.replaceChildren(make("p", { role: "status" }, `No path joins ${nameOf(target)} and ${nameOf(other)}.`));
    return;
  }
  const step = ({ from, to, makers }) =>
    make("li", {}, thingButton(from), " → ", thingButton(to), make("div", { class: "note" }, makers.map(makerText).join(", then "), ` ${placeText(makerPlace(makers[0]))}`));
  const words = `${nameOf(start)} reaches ${nameOf(end)} by ${counted(path.steps.length, "step")}${path.inState ? "" : ", not in the chosen state"}`;
  node.replaceChildren(make("p", { role: "status" }, words), make("ol", { class: "path" }, ...path.steps.map(step)));
  choosePath([start, ...path.steps.map((each) => each.to)]);
  node.scrollIntoView({ block: "nearest" });
}
