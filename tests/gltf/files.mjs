// Which glTF files are at hand? Those of Debian's assimp-testmodels, of npm's @webxr-input-profiles/assets, and of the examples.
import { existsSync, readdirSync, statSync } from "node:fs";
import { basename, extname, join, relative } from "node:path";

const models = "/usr/share/assimp/models";
const profiles = "node_modules/@webxr-input-profiles/assets/dist/profiles";
const endings = new Set([".gltf", ".glb", ".vrm"]);

function filesUnder(folder) {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true })
    .map((name) => join(folder, name))
    .filter((path) => endings.has(extname(path)))
    .sort();
}

/** Files of test models, where they are installed. Names are relative to their folder. */
export function testModels() {
  return [...filesUnder(join(models, "glTF2")), ...filesUnder(join(models, "glTF"))].map((path) => ({ name: relative(models, path), path }));
}

/** The two skinned hands, all other generic models, and every fourth of the rest that is not too large to be looked at in no time. */
export function inputProfiles() {
  const all = filesUnder(profiles).map((path) => ({ name: relative(profiles, path), path }));
  const generic = all.filter(({ name }) => name.startsWith("generic-"));
  const rest = all.filter((file) => !generic.includes(file) && statSync(file.path).size < 1_500_000);
  return [...generic, ...rest.filter((_, i) => i % 4 === 0)];
}

export const isHand = ({ name }) => /^generic-hand.(left|right)\.glb$/.test(name);

export function examples(source) {
  return filesUnder(join(source, "examples")).map((path) => ({ name: `examples/${basename(path)}`, path }));
}

/** All of them. Status 77 where the test models are not installed. */
export function filesAtHand(source) {
  const outside = testModels();
  if (outside.length === 0) {
    console.log("skipped: there are no test models here (apt-get install assimp-testmodels)");
    process.exit(77);
  }
  return [...outside, ...inputProfiles(), ...examples(source)];
}
