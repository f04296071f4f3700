// Are the same files broken in their nodes and skins as for the validator of the standard's makers?
// node validator_agrees.mjs PROGRAM SOURCE
//
// Outside source: npm gltf-validator. It knows no VRM: what VRM forbids is not asked here.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import validator from "gltf-validator";
import { examples, filesAtHand } from "./files.mjs";
import { check } from "./ligament.mjs";
import { writeMutants } from "./mutations.mjs";
import { runTests, test } from "./testing.mjs";

const [program, source] = process.argv.slice(2);

// Errors of the validator that say that a file is broken in its node and skin structure, when they point there.
const structural = new Set([
  "ARRAY_TYPE_MISMATCH",
  "DUPLICATE_ELEMENTS",
  "EMPTY_ENTITY",
  "INVALID_INDEX",
  "NODE_LOOP",
  "NODE_PARENT_OVERRIDE",
  "NODE_SKIN_NO_SCENE",
  "NODE_SKIN_WITH_NON_SKINNED_MESH",
  "SCENE_NON_ROOT_NODE",
  "SKIN_NO_COMMON_ROOT",
  "SKIN_SKELETON_INVALID",
  "TYPE_MISMATCH",
  "UNDEFINED_PROPERTY",
  "UNRESOLVED_REFERENCE",
  "UNSATISFIED_DEPENDENCY",
]);
// Errors that may point there and are about something else.
const aboutSomethingElse = new Map([
  ["INVALID_IBM_ACCESSOR_COUNT", "inverse bind matrices: numbers, which no rig here has"],
  ["SKIN_IBM_ACCESSOR_WITH_BYTESTRIDE", "the same"],
  ["SKIN_IBM_INVALID_FORMAT", "the same"],
  ["NODE_MATRIX_NON_TRS", "a transform: where a node rests, not what hangs on what"],
  ["NODE_MATRIX_TRS", "the same"],
  ["ROTATION_NON_UNIT", "the same"],
  ["ARRAY_LENGTH_NOT_IN_LIST", "the same: translation, rotation, scale and matrix are lists of so many numbers"],
  ["VALUE_NOT_IN_RANGE", "the same"],
  ["NODE_WEIGHTS_INVALID", "morph targets"],
  ["UNDECLARED_EXTENSION", "extensions, whose structure is their own"],
  ["UNEXPECTED_EXTENSION_OBJECT", "the same"],
]);
// Nodes, skins and scenes, but for members that say nothing about what hangs on what.
const place = /^\/(nodes|skins|scenes|scene)(\/|$)/;
const otherMembers = /^\/nodes\/\d+\/(matrix|translation|rotation|scale|weights|camera|extensions|extras)(\/|$)|^\/skins\/\d+\/(inverseBindMatrices|extensions|extras)(\/|$)|^\/scenes\/\d+\/(extensions|extras)(\/|$)/;
const isPlace = (pointer) => place.test(pointer) && !otherMembers.test(pointer);
// Errors about the whole file: no glTF 2.0 at all.
const isWholeFile = ({ code, pointer }) => code === "INVALID_JSON" || code.startsWith("GLB_") || pointer === "/asset/version";

function isStructural(message) {
  if (message.severity !== 0) return false;
  if (isWholeFile(message)) return true;
  if (!isPlace(message.pointer ?? "")) return false;
  if (aboutSomethingElse.has(message.code)) return false;
  assert.ok(structural.has(message.code), `is ${message.code} at ${message.pointer} about the structure?`);
  return true;
}

/** All messages, or undefined where the validator breaks down: it cannot bear a null among the nodes, and
 * may throw where nobody can catch. */
function validate(path) {
  return new Promise((resolve, reject) => {
    const giveUp = (error) => (/^NoSuchMethodError/.test(String(error)) ? resolve(undefined) : reject(error));
    process.once("uncaughtException", giveUp);
    const options = { maxIssues: 0, writeTimestamp: false, format: path.endsWith(".gltf") ? "gltf" : "glb" };
    validator
      .validateBytes(new Uint8Array(readFileSync(path)), options)
      .then(({ issues }) => resolve(issues.messages), giveUp)
      .finally(() => process.off("uncaughtException", giveUp));
  });
}

/** Pointers and words of the validator's errors about the structure. */
async function theirFaults(path) {
  const messages = await validate(path);
  return messages?.filter(isStructural).map(({ code, pointer, message }) => ({ pointer: pointer ?? "", words: `${code} ${message}` }));
}

/** The same of ours: faults of the input, and findings that the standard is broken. */
function ourFaults({ report, faults }) {
  const all = faults ?? report.findings.filter((finding) => finding.check === "standard-broken");
  return all
    .map(({ pointer, message }) => ({ pointer: pointer ?? "", words: message }))
    .filter(({ pointer }) => (faults && pointer === "") || pointer === "/asset/version" || isPlace(pointer));
}

const wordsOf = (faults) => (faults.length === 0 ? "nothing" : faults.map(({ pointer, words }) => `${pointer} ${words}`).join("; "));

/** Compares file by file, and counts. */
async function compare(files) {
  const results = check(program, files.map(({ path }) => path));
  const differences = [];
  let broken = 0;
  let brokenDown = 0;
  let samePlace = 0;
  for (const [i, file] of files.entries()) {
    const theirs = await theirFaults(file.path);
    const ours = ourFaults(results[i]);
    if (!theirs) {
      brokenDown += 1;
      assert.ok(ours.length > 0, `${file.name}: the validator breaks down, and nothing is found here`);
      continue;
    }
    if (theirs.length > 0 !== ours.length > 0) differences.push(`${file.name}\n  validator: ${wordsOf(theirs)}\n  ligament: ${wordsOf(ours)}`);
    if (theirs.length === 0) continue;
    broken += 1;
    samePlace += theirs.some(({ pointer }) => ours.some((fault) => fault.pointer === pointer)) ? 1 : 0;
  }
  console.log(`      ${files.length} files, ${broken} broken for both; of these ${samePlace} at a common place`);
  if (brokenDown > 0) console.log(`      the validator breaks down over ${brokenDown} more, each of which is broken for us`);
  assert.ok(brokenDown < files.length / 20);
  assert.equal(differences.length, 0, `${differences.length} differences\n${differences.join("\n")}`);
  return { broken, sound: files.length - broken - brokenDown };
}

test("the same files at hand are broken", async () => {
  const files = filesAtHand(source);
  const { broken, sound } = await compare(files);
  assert.ok(files.length >= 70, `only ${files.length} files are at hand`);
  assert.ok(broken >= 9 && sound >= 50);
});

test("the same small files are broken after one or two changes", async () => {
  const { broken, sound } = await compare(writeMutants("mutants", 300));
  assert.ok(broken >= 300 && sound >= 80, `${broken} broken, ${sound} sound`);
});

// VRMC_node_constraint 1.0: the source is not the node itself (from memory).
test("a constraint on itself is broken for us; the validator does not look into VRM", async () => {
  const constraint = { specVersion: "1.0", constraint: { rotation: { source: 1 } } };
  const nodes = [{ children: [1] }, { extensions: { VRMC_node_constraint: constraint } }];
  writeFileSync("itself.gltf", JSON.stringify({ asset: { version: "2.0" }, extensionsUsed: ["VRMC_node_constraint"], scenes: [{ nodes: [0] }], nodes }));
  assert.deepEqual(await theirFaults("itself.gltf"), []);
  const [{ faults }] = check(program, ["itself.gltf"]);
  assert.deepEqual(faults.map(({ pointer }) => pointer), ["/nodes/1/extensions/VRMC_node_constraint/constraint/rotation/source"]);
});

test("the validator finds no error of any kind in the examples that are to be without", async () => {
  const files = examples(source).filter(({ name }) => !name.includes(".bad."));
  assert.ok(files.length >= 2);
  for (const { name, path } of files) {
    const errors = (await validate(path)).filter(({ severity }) => severity === 0);
    assert.deepEqual(errors, [], name);
  }
});

await runTests();
