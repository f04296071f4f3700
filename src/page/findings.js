// What should somebody look at, and where is it?

const severities = ["error", "warning", "note"];

function severityCounts() {
  return severities.map((severity) => [severity, data.findings.filter((finding) => finding.severity === severity).length]);
}

function findingNode(id) {
  const finding = data.findings[id];
  const node = make("li", { class: `finding is-${finding.severity}` });
  node.append(make("div", { class: "line" }, severityNode(finding.severity), " ", make("b", {}, finding.check), " ", make("span", { class: "place note" }, placeText(finding.place) + (finding.pointer ? ` (${finding.pointer})` : ""))));
  node.append(make("p", { class: "message" }, finding.message));
  if (finding.differences) node.append(differencesNode(finding));
  if (finding.hint) node.append(make("p", { class: "note" }, `hint: ${finding.hint}`));
  if (finding.cycle !== undefined) node.append(make("p", { class: "controls" }, "drawn as ", jumpToCycle(finding.cycle)));
  if (finding.property >= 0) node.append(make("p", { class: "controls" }, "property ", jumpButton(thing("property", finding.property))));
  if (finding.bones.length > 0)
    node.append(make("div", { class: "bones controls" }, listInPart(finding.bones, 8, (bone) => jumpButton(thing("bone", bone)), { class: "plain inline", "aria-label": "Bones of this finding" })));
  return node;
}

/** What ought to be alike, side by side; where the finding is about two bones, under their names. */
function differencesNode(finding) {
  const table = make("table", { class: "differences" });
  const names = finding.bones.length === 2 ? finding.bones.map((bone) => nameNode(data.bones.name[bone])) : ["one", "other"];
  table.append(make("thead", {}, make("tr", {}, make("th", { scope: "col" }, "what"), ...names.map((name) => make("th", { scope: "col" }, name)))));
  const rows = finding.differences.map(([what, left, right]) => make("tr", {}, make("th", { scope: "row" }, what), make("td", {}, left || "–"), make("td", {}, right || "–")));
  table.append(make("tbody", {}, ...rows));
  return table;
}

function jumpToCycle(cycle) {
  return makeButton(
    `cycle ${cycle + 1}`,
    () => {
      openAbout(thing("cycle", cycle));
      byId("drawings").scrollIntoView();
    },
    { class: "link" }
  );
}

function fillFindings() {
  const bar = byId("findings-bar");
  const list = byId("finding-list");
  const line = byId("findings-line");
  if (data.findings.length === 0) {
    line.textContent = "no findings";
    return;
  }
  const boxes = severityCounts().filter(([, count]) => count > 0).map(([severity, count]) => {
    const box = make("input", { type: "checkbox", checked: true, value: severity });
    bar.append(make("label", {}, box, " ", severityNode(severity), ` (${count})`));
    return box;
  });
  const text = make("input", { type: "text", id: "finding-filter", autocomplete: "off", spellcheck: "false" });
  bar.append(make("label", { for: "finding-filter" }, "with the words"), text);
  const nodes = data.findings.map((_, id) => findingNode(id));
  const texts = data.findings.map((finding) => `${finding.check} ${finding.message} ${finding.hint}`.toLowerCase());
  const filter = () => {
    const wanted = text.value.trim().toLowerCase();
    const shown = new Set(boxes.filter((box) => box.checked).map((box) => box.value));
    const kept = nodes.filter((_, id) => shown.has(data.findings[id].severity) && texts[id].includes(wanted));
    const most = 200;
    list.replaceChildren(...kept.slice(0, most));
    line.textContent = `showing ${Math.min(most, kept.length)} of ${nodes.length}`;
    if (kept.length <= most) return;
    const all = makeButton("show all", () => {
      list.replaceChildren(...kept);
      line.textContent = `showing ${kept.length} of ${nodes.length}`;
    });
    line.append(" ", all);
  };
  [...boxes, text].forEach((input) => input.addEventListener("input", filter));
  filter();
}
