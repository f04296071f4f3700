// What does the page do when it is opened, and which keys work everywhere?

function fillFacts() {
  const counts = [0, 0, 0, 0];
  for (const role of bones.role) ++counts[role];
  const roles = [[counts[2] + counts[3], "deform"], [counts[1] + counts[3], "control"], [counts[0], "mechanism"]];
  const found = severityCounts().filter(([, count]) => count > 0);
  const node = byId("facts");
  node.append(`${counted(bones.name.length, "bone")} (${roles.map(([count, word]) => `${count} ${word}`).join(", ")}), `);
  if (found.length === 0) node.append("no findings");
  found.forEach(([severity, count], i) => node.append(i > 0 ? ", " : "", severityNode(severity, counted(count, severity))));
  node.append(`; state: ${data.state}; from ${data.source}`);
}

function fillAbout() {
  const grain = data.graph.grain;
  const lines = [
    `Verdicts, findings, order and tables are those of ligament for the state ${data.state}; nothing is judged in this page.`,
    `What a thing needs and moves is followed at ${grain} grain, over everything that is not off for good; what does nothing at the stops ` +
      "chosen above the drawings is marked “not in this state”.",
    "Weights were worked out for every combination of the switches that they hang on. Where those are too many, for one switch off its " +
      "default at a time; then the stack says so. A weight that reads the pose of a bone has no value here.",
    `Verdicts were looked at in ${counted(data.states_looked_at, "state")}: the default one, each switch at each stop, and combinations of switches that meet in a bone.`,
  ];
  if (data.notice) lines.push(`Drawings: ${data.notice}`);
  byId("about-text").append(make("ul", {}, ...lines.map((line) => make("li", {}, line))));
}

function onKey(event) {
  const isTyping = event.target.closest("input, textarea, select");
  if (event.key === "Escape") closeCard();
  if (event.key !== "/" || isTyping || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  byId("search").focus();
}

/** Keeps what is open in the address, so that it can be sent to somebody: "#bone/wing_arm_l", "#page/plan". */
function noteInAddress(kind, name) {
  try {
    history.replaceState(null, "", `#${kind}/${encodeURIComponent(name)}`);
  } catch {
    // a browser that lets no page from disk do so: the address stays as it is
  }
}

/** Opens what the address names; nothing where it names nothing that is here. */
function openFromAddress() {
  const [, kind, name] = location.hash.match(/^#(page|bone|property|object)\/(.*)$/) || [];
  if (!kind) return;
  const wanted = decodeURIComponent(name);
  const lists = { page: data.pages.map((page) => page.name), bone: bones.name, property: data.properties.map((each) => each.name), object: data.objects.map((each) => each.name) };
  const id = lists[kind].indexOf(wanted);
  if (id < 0) say(`there is no ${kind} ${wanted}`);
  else if (kind === "page") showPage(id);
  else openCard(thing(kind, id));
}

fillFacts();
fillDrawings();
fillSwitches();
fillSearch();
fillFindings();
fillStates();
fillOrder();
fillFanOut();
fillAbout();
listenToPrinting();
stateListeners.push(() => cardListeners.forEach((tell) => tell()));
document.addEventListener("keydown", onKey);
window.addEventListener("hashchange", openFromAddress);
openFromAddress();
