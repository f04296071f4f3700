// Where in the drawing is what was chosen? Frames around boxes, and numbers along a path.

const svgNamespace = "http://www.w3.org/2000/svg";
let chosenThing = null;
let pathThings = []; // in order, with both ends

function svgNode(tag, attributes, text) {
  const node = document.createElementNS(svgNamespace, tag);
  for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
  if (text) node.textContent = text;
  return node;
}

/** The boxes in a sheet that stand for a thing. */
function boxesOf(sheet, about) {
  return [...sheet.querySelectorAll(`[data-about="${about}"]`)];
}

/** A frame around a box, on top of the drawing: in the box itself it would become part of what the box says. */
function frame(svg, box, kind, word) {
  const { x, y, width, height } = box.getBBox();
  if (width === 0 && height === 0) return;
  const { a, b, c, d, e, f } = svg.getScreenCTM().inverse().multiply(box.getScreenCTM());
  const mark = svgNode("g", { class: `mark ${kind}`, "aria-hidden": "true", transform: `matrix(${[a, b, c, d, e, f].join(" ")})` });
  mark.append(svgNode("rect", { x: x - 3, y: y - 3, width: width + 6, height: height + 6, rx: 4 }));
  if (word) {
    mark.append(svgNode("circle", { cx: x - 3, cy: y - 3, r: 7 }));
    mark.append(svgNode("text", { x: x - 3, y: y, "text-anchor": "middle" }, word));
  }
  svg.append(mark);
}

function refreshMarks() {
  for (const sheet of [byId("plan-sheet"), byId("other-sheet")]) {
    sheet.querySelectorAll(".mark").forEach((mark) => mark.remove());
    const svg = sheet.querySelector("svg");
    if (sheet.hidden || !svg) continue;
    pathThings.forEach((step, i) => boxesOf(sheet, aboutOf(step)).forEach((box) => frame(svg, box, "on-path", String(i + 1))));
    if (chosenThing) boxesOf(sheet, aboutOf(chosenThing)).forEach((box) => frame(svg, box, "chosen"));
  }
}

function choosePath(things) {
  pathThings = things;
  const abouts = new Set(things.map(aboutOf));
  for (const button of byId("card").querySelectorAll("[data-thing]")) button.classList.toggle("on-path", abouts.has(button.dataset.thing));
  refreshMarks();
}
