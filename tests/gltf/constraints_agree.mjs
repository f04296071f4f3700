// Does the program find circular dependencies of constraints where the package that applies them does?
// node constraints_agree.mjs PROGRAM SOURCE
//
// Outside source: npm @pixiv/three-vrm-node-constraint on npm three. Its own loader plugin makes the constraints, its own manager
// evaluates them; a circle is the error that it throws. It walks all ancestors of a source, so that its verdict is about whole
// nodes: bone grain.
import assert from "node:assert/strict";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { VRMNodeConstraintLoaderPlugin } from "@pixiv/three-vrm-node-constraint";
import * as THREE from "three";
import { check } from "./ligament.mjs";
import { constraintOf, hasZero, randomScene, settingsOf } from "./scenes.mjs";
import { runTests, test } from "./testing.mjs";

const [program, source] = process.argv.slice(2);
const sceneCount = 1000;

/** A copy in which constraints of weight 0 are changed: left out, or given another weight. */
function withZeroes(scene, change) {
  const copy = structuredClone(scene);
  for (const node of copy.nodes) {
    if (constraintOf(node) && settingsOf(constraintOf(node)).weight === 0) change(node);
  }
  return copy;
}

/** The nodes of a document as the loader of three makes them. */
function objectsOf(scene) {
  const objects = scene.nodes.map(({ name, translation, rotation }) => {
    const object = new THREE.Object3D();
    object.name = name;
    if (translation) object.position.fromArray(translation);
    if (rotation) object.quaternion.fromArray(rotation);
    return object;
  });
  scene.nodes.forEach((node, i) => (node.children ?? []).forEach((child) => objects[i].add(objects[child])));
  const root = new THREE.Group();
  scene.scenes[0].nodes.forEach((node) => root.add(objects[node]));
  return { root, objects };
}

/**
 * What the package says: {circular}, and of a scene without circles the owners in the order of one update, as node indices, with
 * the nodes that each depends on straight.
 */
async function askPackage(scene) {
  const { root, objects } = objectsOf(scene);
  const plugin = new VRMNodeConstraintLoaderPlugin({ json: scene, getDependencies: async () => objects });
  const gltf = { scene: root, userData: {} };
  try {
    await plugin.afterRoot(gltf); // begins with setInitState(), which goes through all dependencies
    const updates = [];
    const manager = gltf.userData.vrmNodeConstraintManager;
    for (const constraint of manager.constraints) {
      const { update } = constraint;
      constraint.update = function () {
        updates.push({
          owner: objects.indexOf(this.destination),
          needs: [...this.dependencies].map((object) => objects.indexOf(object)).filter((i) => i >= 0),
        });
        update.call(this);
      };
    }
    manager.update();
    return { circular: false, updates };
  } catch (error) {
    if (!error.message.includes("Circular dependency")) throw error;
    return { circular: true };
  }
}

function writeScenes(folder, scenes) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  return scenes.map((scene, i) => {
    const path = `${folder}/${i}.gltf`;
    writeFileSync(path, JSON.stringify(scene));
    return path;
  });
}

/** The program's reports on scenes, each of which it has to be able to read. */
function askProgram(folder, scenes) {
  return check(program, writeScenes(folder, scenes)).map(({ path, report, faults }) => {
    assert.ok(report, `${path} is not read: ${JSON.stringify(faults)}`);
    return report;
  });
}

/** Both verdicts on each scene; a difference is told with its file. Returns how many are circular. */
async function compare(folder, scenes, asked = scenes) {
  const reports = askProgram(folder, scenes);
  const differences = [];
  let circular = 0;
  for (const [i, scene] of asked.entries()) {
    const theirs = (await askPackage(scene)).circular;
    const ours = reports[i].cycles.length > 0;
    circular += theirs ? 1 : 0;
    if (theirs !== ours) differences.push(`${folder}/${i}.gltf: the package says ${theirs}, the program ${ours}`);
  }
  assert.deepEqual(differences, []);
  return { circular, reports };
}

function expectBothVerdicts(circular, count) {
  console.log(`      ${count} scenes: ${circular} with a circle, ${count - circular} without`);
  assert.ok(circular >= 200, `only ${circular} scenes have a circle`);
  assert.ok(count - circular >= 200, `only ${count - circular} scenes have none`);
}

const scenes = Array.from({ length: sceneCount }, (_, seed) => randomScene(seed, { zeroes: false }));
const zeroScenes = Array.from({ length: 4 * sceneCount }, (_, seed) => randomScene(sceneCount + seed, { zeroes: true }))
  .filter(hasZero)
  .slice(0, sceneCount);
let reports;

test("both find a circle in the same scenes", async () => {
  const found = await compare("scenes", scenes);
  reports = found.reports;
  expectBothVerdicts(found.circular, scenes.length);
});

test("the scenes have every kind, weights left out, sources that are parents, ancestors, children, and in other trees", () => {
  const seen = new Map();
  const count = (what) => seen.set(what, (seen.get(what) ?? 0) + 1);
  for (const { nodes } of scenes) {
    const parent = [];
    nodes.forEach((node, i) => (node.children ?? []).forEach((child) => (parent[child] = i)));
    const above = (node) => (parent[node] === undefined ? [] : [parent[node], ...above(parent[node])]);
    const rootOf = (node) => above(node).at(-1) ?? node;
    for (const [owner, node] of nodes.entries()) {
      const constraint = constraintOf(node);
      if (!constraint) continue;
      const { source: from, weight } = settingsOf(constraint);
      count(Object.keys(constraint)[0]);
      count(`weight ${weight ?? "left out"}`);
      if (parent[owner] === from) count("parent");
      else if (above(owner).includes(from)) count("ancestor");
      if (parent[from] === owner) count("child");
      else if (above(from).includes(owner)) count("descendant");
      if (rootOf(from) !== rootOf(owner)) count("other tree");
    }
  }
  console.log(`      ${[...seen].map(([what, times]) => `${what}: ${times}`).join(", ")}`);
  for (const what of ["roll", "aim", "rotation", "weight 1", "weight 0.5", "weight left out", "parent", "ancestor", "child", "descendant", "other tree"])
    assert.ok(seen.get(what) >= 50, `${what}: ${seen.get(what)}`);
});

test("where there is no circle, both evaluate what a constraint depends on before its owner", async () => {
  let pairs = 0;
  for (const [i, scene] of scenes.entries()) {
    const { circular, updates } = await askPackage(scene);
    if (circular) continue;
    const place = new Map(reports[i].order.bones.map((name, at) => [name, at]));
    assert.equal(place.size, scene.nodes.length);
    const parent = [];
    scene.nodes.forEach((node, at) => (node.children ?? []).forEach((child) => (parent[child] = at)));
    const updated = new Map(updates.map(({ owner }, at) => [owner, at]));
    for (const { owner, needs } of updates) {
      for (const need of needs) {
        for (let node = need; node !== undefined; node = parent[node]) {
          assert.ok(place.get(`node_${node}`) < place.get(`node_${owner}`), `scenes/${i}.gltf: node_${owner} does not come after node_${node}`);
          if (!updated.has(node)) continue;
          pairs += 1;
          assert.ok(updated.get(node) < updated.get(owner), `scenes/${i}.gltf: the package updates node_${owner} before node_${node}`);
        }
      }
    }
  }
  console.log(`      ${pairs} pairs of constraints of which one needs the other`);
  assert.ok(pairs >= 100);
});

// The package takes a constraint of weight 0 for a dependency; here it makes inert edges, left out of verdicts. The standard is on
// the package's side: circular dependencies are forbidden whatever the weight (VRMC_node_constraint 1.0, "Circular dependency";
// from memory). A host that evaluates whole nodes still has to find an order for it.
test("a constraint of weight 0 counts for the standard and the package, not for the program: without it both agree", async () => {
  const without = zeroScenes.map((scene) => withZeroes(scene, (node) => delete node.extensions));
  const { circular } = await compare("zero_scenes", zeroScenes, without);
  expectBothVerdicts(circular, zeroScenes.length);
});

test("with the weights of 0 made 1, the program agrees with the package on the scene as it was", async () => {
  const full = zeroScenes.map((scene) => withZeroes(scene, (node) => (settingsOf(constraintOf(node)).weight = 1)));
  const { circular } = await compare("full_scenes", full, zeroScenes);
  expectBothVerdicts(circular, zeroScenes.length);
});

test("weights of 0 make a difference in some scenes", async () => {
  let differences = 0;
  for (const scene of zeroScenes) {
    const whole = await askPackage(scene);
    const without = await askPackage(withZeroes(scene, (node) => delete node.extensions));
    differences += whole.circular === without.circular ? 0 : 1;
  }
  console.log(`      in ${differences} of ${zeroScenes.length} scenes the only circles go through a weight of 0: the standard and the package forbid these`);
  assert.ok(differences >= 50);
});

test("the package takes the constraints of the demo warden, and finds no circle either", async () => {
  const path = `${source}/examples/warden.vrm`;
  const bytes = readFileSync(path);
  const scene = JSON.parse(bytes.subarray(20, 20 + bytes.readUInt32LE(12)).toString("utf8"));
  const { circular, updates } = await askPackage(scene);
  assert.equal(circular, false);
  assert.equal(updates.length, 6);
  const [{ report }] = check(program, [path]);
  assert.deepEqual(report.cycles, []);
});

await runTests();
