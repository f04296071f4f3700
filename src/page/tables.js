// What do the tables say? Each can be sorted by its heads and copied as text.

const mostRows = 200;
let isPrinting = false; // then cells hold all their names
const shows = []; // by table: what shows its rows anew

/**
 * A table. Columns: { head, isNumber, value(row): what sorts and is copied, node(row): what is shown, left out where that is the
 * value }. Of many rows the first are shown, and it says how many there are.
 */
function fillTable(place, label, columns, rows) {
  let sorted = rows.slice();
  let isWhole = rows.length <= mostRows;
  const heads = columns.map((column) => make("th", { scope: "col", class: column.isNumber ? "number" : null }));
  const body = make("tbody", {});
  const line = make("p", { class: "note", role: "status" });
  const table = make("table", {}, make("caption", { class: "unseen" }, label), make("thead", {}, make("tr", {}, ...heads)), body);
  const show = () => {
    const isAll = isWhole || isPrinting;
    body.replaceChildren(...sorted.slice(0, isAll ? sorted.length : mostRows).map((row) => rowNode(columns, row)));
    line.textContent = `showing ${body.children.length.toLocaleString("en")} of ${counted(rows.length, "row")} `;
    if (!isAll) line.append(makeButton("show all", () => ((isWhole = true), show()), { class: "controls" }));
  };
  columns.forEach((column, index) => {
    heads[index].append(makeButton(column.head, () => sortBy(index), { class: "head" }));
  });
  const sortBy = (index) => {
    const isUp = heads[index].getAttribute("aria-sort") !== "ascending";
    heads.forEach((head) => head.removeAttribute("aria-sort"));
    heads[index].setAttribute("aria-sort", isUp ? "ascending" : "descending");
    const { value, isNumber } = columns[index];
    const compare = isNumber ? (a, b) => a - b : (a, b) => compareTexts(String(a), String(b));
    sorted = rows.slice().sort((a, b) => (isUp ? 1 : -1) * compare(value(a), value(b)));
    show();
  };
  shows.push(show);
  show();
  const copied = make("div", { class: "controls" });
  const copy = makeButton("Copy as text", () => copyTable(columns, sorted, copied), { "aria-label": `Copy as text: ${label}` });
  const scroll = make("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": `Table: ${label}` }, table);
  byId(place).append(make("div", { class: "tools controls" }, copy), copied, scroll, line);
}

function rowNode(columns, row) {
  return make("tr", {}, ...columns.map(({ node, value, isNumber }) => make("td", { class: isNumber ? "number" : "words" }, node ? node(row) : String(value(row)))));
}

/** Numbers inside texts by their size, else letter by letter: the same on every machine. */
function compareTexts(a, b) {
  const [parts, others] = [a, b].map((text) => text.toLowerCase().match(/\d+|\D+/g) || []);
  for (let i = 0; i < Math.min(parts.length, others.length); ++i) {
    if (parts[i] === others[i]) continue;
    const numbers = [Number(parts[i]), Number(others[i])];
    if (numbers.every((number) => !Number.isNaN(number)) && numbers[0] !== numbers[1]) return numbers[0] - numbers[1];
    return parts[i] < others[i] ? -1 : 1;
  }
  return parts.length - others.length;
}

/** Tab-separated, all rows. What a spreadsheet would take for a formula gets a mark before it, so that it stays a text. */
function tableText(columns, rows) {
  const cell = (column, row) => {
    const text = String(column.value(row));
    return !column.isNumber && /^[=+\-@]/.test(text) ? `'${text}` : text;
  };
  const lines = [columns.map((column) => column.head), ...rows.map((row) => columns.map((column) => cell(column, row)))];
  return lines.map((line) => line.join("\t")).join("\n") + "\n";
}

/** To the clipboard; where the browser does not let us, into a box with everything selected. */
async function copyTable(columns, rows, place) {
  const text = tableText(columns, rows);
  try {
    await navigator.clipboard.writeText(text);
    place.replaceChildren(make("p", { class: "note", role: "status" }, `copied ${counted(rows.length, "row")}`));
  } catch {
    const box = make("textarea", { rows: "6", readonly: true, "aria-label": "The table as text, to be copied" });
    box.value = text;
    place.replaceChildren(make("p", { class: "note" }, "This browser keeps the clipboard shut: copy from here."), box);
    box.focus();
    box.select();
  }
}

const names = (kind, ids) => ids.map((id) => nameOf(thing(kind, id))).join(", ");
const someBones = (ids) => (ids.length > 0 ? listInPart(ids, isPrinting ? ids.length : 6, (id) => jumpButton(thing("bone", id)), { class: "plain inline" }) : "none");

function fillOrder() {
  const { order } = data;
  const blocked = new Set(order.blocked);
  const chain = new Set(order.chain);
  const remark = (bone) => [cyclesOf.has(bone) ? `in cycle ${cyclesOf.get(bone) + 1}` : "", blocked.has(bone) ? "waits for a cycle" : "", chain.has(bone) ? "longest chain" : ""].filter(Boolean).join(", ");
  const rows = order.bones.map((bone, place) => ({ bone, place: place + 1 }));
  fillTable("order-table", "Order", [
    { head: "place", isNumber: true, value: (row) => row.place },
    { head: "bone", value: (row) => bones.name[row.bone], node: (row) => jumpButton(thing("bone", row.bone)) },
    { head: "group", value: (row) => groupName(bones.group[row.bone]), node: (row) => nameNode(groupName(bones.group[row.bone])) },
    { head: "level", isNumber: true, value: (row) => order.level[row.bone] },
    { head: "slack", isNumber: true, value: (row) => order.slack[row.bone] },
    { head: "remark", value: (row) => remark(row.bone) },
  ], rows);
}

function fillFanOut() {
  const on = (row) => data.properties[row[0]].on;
  const number = (head, index) => ({ head, isNumber: true, value: (row) => row[index] });
  fillTable("fan-out-table", "Fan-out", [
    { head: "property", value: (row) => nameOf(thing("property", row[0])), node: (row) => jumpButton(thing("property", row[0])) },
    { head: "on", value: (row) => (on(row) < 0 ? "" : bones.name[on(row)]), node: (row) => (on(row) < 0 ? "" : jumpButton(thing("bone", on(row)))) },
    number("weights", 1), number("channels", 2), number("properties", 3), number("constraints", 4), number("bones moved", 5),
  ], data.fan_out);
}

/** A state that can be chosen is chosen by a press. */
function stateNode(row) {
  if (!row.settings || row.settings.length === 0) return row.state;
  return makeButton(row.state, () => chooseState(row.settings), { class: "link", title: "choose this state" });
}

function fillStates() {
  const rows = [];
  for (const table of data.tables) {
    const group = table.group || "(in no group)";
    for (const row of table.rows) {
      const state = row.settings.length > 0 ? settingsName(row.settings) : "at every stop";
      const controls = row.verdict === "orphaned" ? row.controls : [...row.controls, ...table.shared]; // its own first
      rows.push({ ...row, group, state, controls });
    }
  }
  fillTable("states-table", "States", [
    { head: "limb", value: (row) => row.group, node: (row) => nameNode(row.group) },
    { head: "state", value: (row) => row.state, node: stateNode },
    { head: "verdict", value: (row) => row.verdict, node: (row) => (row.verdict ? verdictNode(row.verdict) : "") },
    { head: "deform bones", value: (row) => names("bone", row.bones), node: (row) => someBones(row.bones) },
    { head: "moved by", value: (row) => names("bone", row.controls), node: (row) => someBones(row.controls) },
  ], rows);
  const without = data.tables.filter((table) => table.without_effect.length > 0);
  if (without.length === 0) return;
  const say = (table) => `${table.group || "(in no group)"}: ${table.without_effect.map(switchName).join(", ")}`;
  byId("states-table").append(make("p", { class: "note" }, "Switches that touch a limb, but change no row of it:"), listInPart(without, 20, say));
}

function listenToPrinting() {
  const set = (value) => () => {
    isPrinting = value;
    shows.forEach((show) => show());
  };
  window.addEventListener("beforeprint", set(true));
  window.addEventListener("afterprint", set(false));
}
