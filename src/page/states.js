// In which state is the rig looked at, and what do weights come to there?

/** By switch the option that is set. */
const chosen = data.switches.map((each) => each.base);
const stateListeners = [];

function switchName(index) {
  return data.properties[data.switches[index].property].name;
}

function optionName(index, option) {
  return data.switches[index].options[option][0];
}

/** The name of a list of settings, [switch, stop] each; a stop of -1 is what the page has it at. */
function settingsName(settings) {
  if (settings.length === 0) return data.state;
  return settings.map(([index, stop]) => `${switchName(index)}=${optionName(index, stop < 0 ? data.switches[index].base : stop)}`).join(" + ");
}

function chosenSettings() {
  return chosen.map((option, index) => [index, option]).filter(([index, option]) => option !== data.switches[index].base);
}

/** As people read it: what the page is of, and what was set since. */
function stateName() {
  const set = settingsName(chosenSettings());
  if (chosenSettings().length === 0) return data.state;
  return data.is_default ? set : `${set}, else ${data.state}`;
}

function chooseState(settings) {
  data.switches.forEach((each, index) => (chosen[index] = each.base));
  for (const [index, stop] of settings) chosen[index] = stop < 0 ? data.switches[index].base : stop;
  tellState();
}

function tellState() {
  for (const listener of stateListeners) listener();
  say(`State: ${stateName()}`);
}

const tableOf = new Map(data.weights.map((table) => [table.constraint, table]));

/** The row of a constraint's table in the chosen state, or null where it was not worked out. */
function rowInState(table) {
  let combination = 0;
  if (!table.one_at_a_time) {
    for (const index of table.switches) combination = combination * data.switches[index].options.length + chosen[index];
    return table.rows[table.row_of[combination]];
  }
  let place = 1;
  for (const index of table.switches) {
    if (chosen[index] !== data.switches[index].base) {
      if (combination > 0) return null;
      combination = place + chosen[index];
    }
    place += data.switches[index].options.length;
  }
  return table.rows[table.row_of[combination]];
}

/**
 * Weights of a constraint in the chosen state: its own first, then one a source. null: it depends on the pose. `known` is false
 * where the combination was not worked out.
 */
function weightsInState(id) {
  const constraint = data.constraints[id];
  const table = tableOf.get(id);
  const fixed = (weight) => (weight === undefined ? 1 : Array.isArray(weight) ? null : Math.min(1, Math.max(0, weight)));
  const row = table && rowInState(table);
  if (row) return { known: true, replaced: row[0], weights: row.slice(1) };
  const weights = [fixed(constraint.weight), ...(constraint.sources || []).map((source) => fixed(source.weight))];
  return { known: !table, replaced: (table ? 0 : constraint.replaced) || 0, weights };
}

/** "1", "off", "0.25", or that it depends on the pose. */
function weightText(weight, known) {
  if (!known) return "not worked out for this combination";
  if (weight === null) return "depends on the pose";
  return weight === 0 ? "0, off" : String(Math.round(weight * 1e6) / 1e6);
}

/** The verdict of a deform bone in the chosen state, as far as states were looked at: { verdict, from }, settings that tell it. */
function verdictInState(row) {
  let found = { verdict: row.verdict, settings: [] };
  const order = Object.keys(verdictShapes);
  for (const worse of row.worse || []) {
    const holds = worse.settings.every(([index, stop]) => chosen[index] === (stop < 0 ? data.switches[index].base : stop));
    if (holds && order.indexOf(worse.verdict) > order.indexOf(found.verdict)) found = worse;
  }
  return found;
}

function fillSwitches() {
  if (data.switches.length === 0) return;
  byId("switches").hidden = false;
  byId("switch-note").textContent =
    "Weights, and what counts in what a bone needs and moves, follow the stops set here, in any combination. Verdicts, findings, tables and " +
    "drawings were made before and do not change with them.";
  const list = byId("switch-list");
  data.switches.forEach((each, index) => {
    const select = make("select", { id: `switch-${index}` });
    const order = [each.base, ...each.options.keys()].filter((option, place, all) => all.indexOf(option) === place);
    for (const option of order) {
      const suffix = option === each.base ? ` (${data.is_default ? "default" : "as the page has it"})` : "";
      select.append(make("option", { value: option }, optionName(index, option) + suffix));
    }
    select.addEventListener("change", () => {
      chosen[index] = Number(select.value);
      tellState();
    });
    stateListeners.push(() => (select.value = String(chosen[index])));
    list.append(make("div", { class: "switch" }, make("label", { for: select.id }, nameNode(switchName(index))), select));
  });
  byId("switch-reset").addEventListener("click", () => chooseState([]));
  stateListeners.push(() => (byId("state-name").textContent = stateName()));
  byId("state-name").textContent = stateName();
  if (data.switches.length > 12) byId("switch-filter-line").hidden = false;
  byId("switch-filter").addEventListener("input", (event) => {
    const wanted = event.target.value.toLowerCase();
    [...list.children].forEach((node, index) => (node.hidden = !switchName(index).toLowerCase().includes(wanted)));
  });
}
