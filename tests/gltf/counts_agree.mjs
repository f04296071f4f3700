// Does the program see the nodes, skins, joints and weighted joints that another reader of glTF sees?
// node counts_agree.mjs PROGRAM SOURCE
//
// Outside source: npm @gltf-transform/core, whose accessors decode strides, sparse entries and normalised numbers by themselves.
import assert from "node:assert/strict";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { Logger, NodeIO } from "@gltf-transform/core";
import { filesAtHand, isHand } from "./files.mjs";
import { check, convert } from "./ligament.mjs";
import { runTests, test } from "./testing.mjs";
import { weightedScene } from "./weighted.mjs";

const [program, source] = process.argv.slice(2);

/** The joints of a skin, by their places in it, that some vertex of a mesh is weighted to. */
function weightedPlaces(mesh) {
  const places = new Set();
  for (const primitive of mesh.listPrimitives()) {
    for (const semantic of primitive.listSemantics().filter((name) => name.startsWith("JOINTS_"))) {
      const joints = primitive.getAttribute(semantic);
      const weights = primitive.getAttribute(semantic.replace("JOINTS_", "WEIGHTS_"));
      if (!weights) continue;
      for (let vertex = 0; vertex < joints.getCount(); ++vertex) {
        const at = joints.getElement(vertex, []);
        weights.getElement(vertex, []).forEach((weight, i) => weight > 0 && places.add(at[i]));
      }
    }
  }
  return places;
}

/** What the other reader sees; nodes are told by their indices. Throws where it cannot read the file. */
async function theirView(path) {
  const document = await new NodeIO().setLogger(new Logger(Logger.Verbosity.SILENT)).read(path);
  const root = document.getRoot();
  const nodes = root.listNodes();
  const at = new Map(nodes.map((node, i) => [node, i]));
  const parents = nodes.map((node) => at.get(node.getParentNode()));
  const skins = root.listSkins().map((skin) => skin.listJoints().map((joint) => at.get(joint)));
  const deform = new Set();
  let skinnedNodes = 0;
  for (const node of nodes) {
    const [mesh, skin] = [node.getMesh(), node.getSkin()];
    if (!mesh || !skin) continue;
    skinnedNodes += 1;
    const joints = skin.listJoints();
    for (const place of weightedPlaces(mesh)) if (joints[place]) deform.add(at.get(joints[place]));
  }
  return { nodes: nodes.length, parents, skins, skinnedNodes, deform: [...deform].sort((a, b) => a - b) };
}

/** The same of the program: its report, and the rig description that it writes. */
function ourView(path, report) {
  convert(program, path, "counts/converted.rig.json");
  const rig = JSON.parse(readFileSync("counts/converted.rig.json", "utf8"));
  const at = new Map(rig.bones.map(({ name }, i) => [name, i]));
  return {
    report,
    parents: rig.bones.map(({ parent }) => (parent === undefined ? undefined : at.get(parent))),
    deform: rig.bones.flatMap(({ roles = [] }, i) => (roles.includes("deform") ? [i] : [])),
    objects: (rig.objects ?? []).map(({ follows = [] }) => follows.map((bone) => at.get(bone))),
  };
}

const sorted = (numbers) => [...new Set(numbers)].sort((a, b) => a - b);

function compare(name, theirs, ours) {
  const { counts } = ours.report;
  assert.equal(counts.bones, theirs.nodes, `${name}: nodes`);
  assert.deepEqual(ours.parents, theirs.parents, `${name}: parents`);
  assert.deepEqual(ours.deform, theirs.deform, `${name}: joints that a vertex is weighted to`);
  assert.equal(counts.deform, theirs.deform.length, `${name}: how many of them`);
  assert.equal(counts.objects, theirs.skins.length, `${name}: skins`);
  assert.deepEqual(ours.objects.map(sorted), theirs.skins.map(sorted), `${name}: joints of each skin`);
}

const files = filesAtHand(source).filter(({ name }) => name !== "examples/heron.gltf"); // carries its roles itself
const results = new Map(check(program, files.map(({ path }) => path)).map((result) => [result.path, result]));

// What the other reader reads although it is broken (validator_agrees has the word of the validator), and what we say of it.
const brokenFiles = new Map([["glTF2/RecursiveNodes/RecursiveNodes.gltf", /^parent loop node 0 -> node 1 -> node 0/]]);

const seen = [];
const unread = [];

rmSync("counts", { recursive: true, force: true });
mkdirSync("counts");

test("nodes, parents, skins, their joints, and the joints that move vertices are the same", async () => {
  for (const { name, path } of files) {
    const result = results.get(path);
    let theirs;
    try {
      theirs = await theirView(path);
    } catch (error) {
      unread.push({ name, reason: error.message.split("\n")[0].replaceAll(/[^ -~]/g, "?"), result });
      continue;
    }
    if (brokenFiles.has(name)) {
      assert.match(result.faults[0].message, brokenFiles.get(name));
      continue;
    }
    assert.ok(result.report, `${name} is read by the other reader, not by us: ${JSON.stringify(result.faults)}`);
    compare(name, theirs, ourView(path, result.report));
    seen.push({ name, path, ...theirs });
  }
  const sum = (of) => seen.reduce((total, view) => total + of(view), 0);
  console.log(
    `      ${seen.length} files: ${sum((view) => view.nodes)} nodes, ${sum((view) => view.skins.length)} skins, ` +
      `${sum((view) => view.skins.flat().length)} joints, ${sum((view) => view.skinnedNodes)} nodes with a skinned mesh, ${sum((view) => view.deform.length)} joints that move vertices`,
  );
  assert.ok(seen.length >= 60 && sum((view) => view.deform.length) >= 90);
});

test("both hands go through, with their joints", () => {
  const hands = seen.filter(isHand);
  assert.equal(hands.length, 2);
  for (const { name, nodes, skins, deform } of hands) {
    console.log(`      ${name}: ${nodes} nodes, ${skins.flat().length} joints, ${deform.length} of them move vertices`);
    assert.deepEqual(skins.map((joints) => joints.length), [25]);
    assert.ok(deform.length > 0);
  }
});

test("of what the other reader cannot read, we say something clear", () => {
  for (const { name, reason, result } of unread) {
    const words = result.report ? `read, ${result.report.counts.bones} bones` : result.faults.map(({ place, message }) => `${place} ${message}`).join("; ");
    console.log(`      ${name}: the other reader: ${reason}; ligament: ${words}`);
    assert.ok(result.report || result.faults.every(({ message }) => message.length > 10));
  }
  assert.ok(unread.length < files.length / 4);
});

test("the joints that move vertices are the same however the numbers are told", async () => {
  const paths = Array.from({ length: 100 }, (_, seed) => `counts/weighted_${seed}.gltf`);
  paths.forEach((path, seed) => writeFileSync(path, JSON.stringify(weightedScene(seed))));
  let deform = 0;
  let joints = 0;
  for (const { path, report, faults } of check(program, paths)) {
    assert.ok(report, `${path} is not read: ${JSON.stringify(faults)}`);
    const theirs = await theirView(path);
    compare(path, theirs, ourView(path, report));
    deform += theirs.deform.length;
    joints += new Set(theirs.skins.flat()).size;
  }
  console.log(`      ${paths.length} files: ${deform} of ${joints} joints move vertices`);
  assert.ok(deform >= 500 && joints - deform >= 200);
});

await runTests();
