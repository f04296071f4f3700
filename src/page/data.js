// What is there to show? The data of the page, with names and places of everything that can be chosen.

const data = JSON.parse(byId("data").textContent);

/** A column written as value, count, value, count, ... */
function unfold(runs, Column) {
  let size = 0;
  for (let i = 1; i < runs.length; i += 2) size += runs[i];
  const column = new Column(size);
  let at = 0;
  for (let i = 0; i < runs.length; i += 2) {
    column.fill(runs[i], at, at + runs[i + 1]);
    at += runs[i + 1];
  }
  return column;
}

const bones = data.bones;
bones.group = unfold(bones.group, Int32Array);
data.order.level = unfold(data.order.level, Int32Array);

const roleWords = ["mechanism", "control", "deform", "control + deform"];

// A thing is { kind, id }: a bone, property or object, by its place in the file.
const thing = (kind, id) => ({ kind, id });
const isSame = (a, b) => a !== null && b !== null && a.kind === b.kind && a.id === b.id;
const aboutOf = ({ kind, id }) => `${kind}:${id}`;

function nameOf({ kind, id }) {
  if (kind === "bone") return bones.name[id];
  if (kind === "property") return data.properties[id].name;
  if (kind === "object") return data.objects[id].name;
  return kind === "cycle" ? `cycle ${id + 1}` : groupName(id);
}

function groupName(group) {
  return data.groups[group] || "(in no group)";
}

function placeOf({ kind, id }) {
  if (kind === "bone") return [bones.place[2 * id], bones.place[2 * id + 1]];
  return (kind === "property" ? data.properties : data.objects)[id].place;
}

const fileName = data.source.split("/").at(-1);

/** With the name of the file alone: the page says once where it lies. */
function placeText([line, column]) {
  return line > 0 ? `${fileName}:${line}:${column}` : fileName;
}

/** By bone the ids of its constraints, in the order of the stack. */
const constraintsOf = bones.name.map(() => []);
data.constraints.forEach((constraint, id) => constraintsOf[constraint.bone].push(id));

function constraintName(id) {
  return `${bones.name[data.constraints[id].bone]}/${data.constraints[id].name}`;
}

/** By bone its row in data.deform, where it has one. */
const deformOf = new Map(data.deform.map((row) => [row.bone, row]));

const propertiesOn = new Map();
data.properties.forEach((property, id) => {
  if (property.on >= 0) propertiesOn.set(property.on, [...(propertiesOn.get(property.on) || []), id]);
});

/** By bone the ids of the findings that name it. */
const findingsOf = new Map();
data.findings.forEach((finding, id) => {
  for (const bone of finding.bones) findingsOf.set(bone, [...(findingsOf.get(bone) || []), id]);
});

const cyclesOf = new Map();
data.cycles.forEach((cycle, id) => cycle.bones.forEach((bone) => cyclesOf.set(bone, id)));

// Verdicts and severities are told by word and shape.
const verdictShapes = { attached: "●", carried: "◐", "root-only": "◔", orphaned: "○" };
const severityShapes = { error: "■", warning: "▲", note: "●" };

function verdictNode(verdict) {
  return make("span", { class: `verdict is-${verdict}` }, make("span", { "aria-hidden": "true" }, verdictShapes[verdict]), ` ${verdict}`);
}

function severityNode(severity, text = severity) {
  return make("span", { class: `severity is-${severity}` }, make("span", { "aria-hidden": "true" }, severityShapes[severity]), ` ${text}`);
}
