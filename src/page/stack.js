// What stands in the stack of a bone, and how much does each constraint count in the chosen state?

function driverNode(weight) {
  if (!Array.isArray(weight)) return null;
  const [, words] = data.drivers[weight[0]];
  return make("span", { class: "driver" }, "driven: ", make("code", {}, words));
}

function sourceNode(source, weight, known) {
  const from = source.bone !== undefined ? thing("bone", source.bone) : thing("object", source.object);
  const words = [];
  if (source.curved) words.push("along its bend");
  if (source.at) words.push(`at ${source.at} of its length`);
  if (source.weight !== undefined) words.push(`weight ${weightText(weight, known)}`);
  const text = words.length > 0 ? ` (${words.join(", ")})` : "";
  return make("li", {}, `${source.use} `, thingButton(from), text, " ", driverNode(source.weight));
}

function constraintNode(id, highlighted) {
  const constraint = data.constraints[id];
  const { known, weights, replaced } = weightsInState(id);
  const weight = constraint.disabled ? 0 : weights[0];
  const text = constraint.disabled ? "disabled" : weightText(weight, known);
  const bar = make("span", { class: "weight-bar", "aria-hidden": "true" }, make("span", {}));
  bar.firstChild.style.width = `${100 * (known && weight !== null ? weight : 0)}%`;
  const isOff = constraint.disabled || (known && weight === 0);
  const node = make("li", { class: `constraint${isOff ? " is-off" : ""}`, id: `constraint-${id}` });
  node.append(
    make("div", { class: "line" }, make("b", {}, nameNode(constraint.name)), ` ${constraint.kind} `, bar, " weight ", make("b", {}, text))
  );
  if (constraint.manner) node.append(make("div", { class: "note" }, constraint.manner));
  if (replaced === 7) node.append(make("div", { class: "note" }, "replaces all that came before it"));
  else if (replaced) node.append(make("div", { class: "note" }, `replaces ${partWords(replaced)} that came before it`));
  const driver = driverNode(constraint.weight);
  if (driver) node.append(make("div", {}, driver));
  if (constraint.sources)
    node.append(make("ul", { class: "plain" }, ...constraint.sources.map((source, i) => sourceNode(source, weights[i + 1], known))));
  node.append(make("div", { class: "note" }, placeText(constraint.place)));
  if (id === highlighted) node.classList.add("sought");
  return node;
}

function partWords(parts) {
  return ["position", "rotation", "scale"].filter((_, i) => (parts >> i) & 1).join(" and ");
}

/** The switches that the weights of a bone's stack hang on. */
function switchesOfStack(bone) {
  const all = new Set();
  for (const id of constraintsOf[bone]) for (const index of tableOf.get(id)?.switches || []) all.add(index);
  return [...all].sort((a, b) => a - b);
}

/** A second place to set a switch, in step with the first. `listeners` are called when the state changes. */
function switchSelect(index, listeners) {
  const first = byId(`switch-${index}`);
  const select = make("select", { "aria-label": `${switchName(index)} stands at` });
  select.append(...[...first.options].map((option) => option.cloneNode(true)));
  select.value = String(chosen[index]);
  select.addEventListener("change", () => {
    chosen[index] = Number(select.value);
    tellState();
  });
  listeners.push(() => (select.value = String(chosen[index])));
  return make("div", { class: "switch" }, thingButton(thing("property", data.switches[index].property)), " ", select);
}
