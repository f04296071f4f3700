// Does what was read of a glTF file, written as a rig description and read again, get the same verdicts?
// node conversion_keeps_verdicts.mjs PROGRAM SOURCE
import assert from "node:assert/strict";
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { filesAtHand } from "./files.mjs";
import { check, convert } from "./ligament.mjs";
import { writeMutants } from "./mutations.mjs";
import { randomScene } from "./scenes.mjs";
import { runTests, test } from "./testing.mjs";

const [program, source] = process.argv.slice(2);

// Findings about the glTF file itself, which is gone after the conversion.
const aboutTheFile = new Set(["standard-broken", "weights-unread", "joint-unweighted", "extension-unread"]);
const isKept = ({ check }) => !aboutTheFile.has(check);

/** A report without places: these are of another file. */
function verdictsOf(report) {
  const withoutPlaces = (value) => {
    if (Array.isArray(value)) return value.map(withoutPlaces);
    if (value === null || typeof value !== "object") return value;
    return Object.fromEntries(
      Object.entries(value)
        .filter(([key]) => !["line", "column", "pointer"].includes(key))
        .map(([key, inner]) => [key, withoutPlaces(inner)]),
    );
  };
  const { counts, cycles, order, attachment, fan_out, findings } = withoutPlaces(report);
  return { counts, cycles, order, attachment, fan_out, findings: findings.filter(isKept) };
}

/** Converts all files that can be read, and compares the reports. */
function compare(folder, files) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  const before = check(program, files.map(({ path }) => path)).filter(({ report }) => report);
  const written = before.map(({ path }, i) => {
    const to = `${folder}/${i}.rig.json`;
    convert(program, path, to);
    return to;
  });
  const after = check(program, written);
  const totals = { files: before.length, cycles: 0, deform: 0, findings: 0 };
  for (const [i, { path, report }] of before.entries()) {
    assert.ok(after[i].report, `${path}: what was written is not read: ${JSON.stringify(after[i].faults)}`);
    const verdicts = verdictsOf(report);
    assert.deepEqual(verdictsOf(after[i].report), verdicts, `${path} and ${written[i]}`);
    totals.cycles += verdicts.cycles.length;
    totals.deform += verdicts.attachment.length;
    totals.findings += verdicts.findings.length;
  }
  console.log(`      ${totals.files} files: ${totals.cycles} cycles, ${totals.deform} deform bones, ${totals.findings} findings that are not about the file`);
  return totals;
}

test("every file at hand", () => {
  const { files, deform } = compare("converted", filesAtHand(source));
  assert.ok(files >= 60 && deform >= 100);
});

test("small files with and without faults in their skins", () => {
  const { files } = compare("converted_mutants", writeMutants("mutants_to_convert", 0));
  assert.ok(files >= 80);
});

test("scenes with constraints", () => {
  rmSync("scenes_to_convert", { recursive: true, force: true });
  mkdirSync("scenes_to_convert");
  const scenes = Array.from({ length: 60 }, (_, seed) => {
    const path = `scenes_to_convert/${seed}.gltf`;
    writeFileSync(path, JSON.stringify(randomScene(5000 + seed, { zeroes: true })));
    return { path };
  });
  const { files, cycles } = compare("converted_scenes", scenes);
  assert.ok(files === scenes.length && cycles >= 15);
});

await runTests();
