// Does the page's own search find what the program's finds, in every state? node reach_test.mjs PROGRAM SOURCE [COUNT]
// The script of the page without the page: the parts that search, over random rigs, against the program's verdicts.
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import vm from "node:vm";

const [program, source, count = "16"] = process.argv.slice(2);
const run = (tool, ...words) => execFileSync(tool, words, { encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "ignore"] });
const script = ["dom", "data", "states", "reach"].map((part) => readFileSync(`${source}/src/page/${part}.js`, "utf8")).join("\n");

/** The searching parts of the script over the data of a page. */
function load(html) {
  const [, json] = html.match(/<script type="application\/json" id="data">(.*?)<\/script>/s);
  const context = { document: { getElementById: (id) => ({ textContent: id === "data" ? json : "" }) } };
  vm.runInNewContext(`${script};globalThis.page = { data, bones, thing, theGraph, vertexKinds, search, edgeRule, leavesBone, verticesOf, arrivalsOf, chooseState, tellState };`, context);
  return context.page;
}

/** Each switch at each option, and each with its next one off its default as well. */
function statesOf({ data }) {
  const off = data.switches.flatMap((each, index) => each.options.map((_, option) => [index, option]).filter(([, option]) => option !== each.base));
  const pairs = off.flatMap(([index, option]) => off.filter(([other]) => other === index + 1).map((next) => [[index, option], next]));
  return [[], ...off.map((setting) => [setting]), ...pairs];
}

/**
 * How many deform bones a control moves by the rules of attachment: from its pose and the undriven properties on it, over all
 * edges that count in the state but those of weights.
 */
function countMoved(page, bone) {
  const { data, thing, vertexKinds } = page;
  const graph = page.theGraph();
  const kind = (v) => vertexKinds[graph.kind[v]];
  const starts = page.verticesOf(thing("bone", bone)).filter((v) => kind(v) === "pose");
  data.properties.forEach((property, id) => {
    if (property.on === bone && property.driver === undefined) starts.push(...page.verticesOf(thing("property", id)));
  });
  const rule = page.edgeRule(true);
  const isOfWeight = (e) => graph.edgeKind[e] === 2 && ["constraint", "solver"].includes(kind(graph.to[e]));
  const { cost } = page.search(starts, true, (e) => rule(e) && !isOfWeight(e), page.leavesBone);
  return data.deform.filter((row) => page.arrivalsOf(thing("bone", row.bone)).some((v) => cost[v] >= 0)).length;
}

let compared = 0;
const differences = [];
for (let seed = 1; seed <= Number(count); ++seed) {
  writeFileSync("random.rig.json", run("/usr/bin/python3", `${source}/tests/reference/random_rigs.py`, String(seed)));
  const page = load(run(program, "report", "random.rig.json", "-o", "-"));
  const { data } = page;
  const rig = JSON.parse(readFileSync("random.rig.json", "utf8"));
  for (const settings of statesOf(page)) {
    page.chooseState(settings);
    const words = settings.flatMap(([index, option]) => ["--state", `${rig.properties[data.switches[index].property].name}=${data.switches[index].options[option][1]}`]);
    const { controls } = JSON.parse(run(program, "controls", "random.rig.json", "--format", "json", ...words));
    for (const { control, moves } of controls) {
      const found = countMoved(page, rig.bones.findIndex((bone) => bone.name === control));
      ++compared;
      if (found !== moves) differences.push(`seed ${seed}, ${words.join(" ") || "default"}: ${control} moves ${moves} deform bones, in the page ${found}`);
    }
  }
}
console.log(`${compared} controls in states compared, ${differences.length} differences`);
differences.slice(0, 10).forEach((line) => console.log(line));
process.exit(differences.length > 0 || compared < 100 ? 1 : 0);
