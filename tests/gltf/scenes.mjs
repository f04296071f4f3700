// Which scenes with VRMC_node_constraint are looked at? Random ones, the same for the same seed.
import { seeded } from "./random.mjs";

const extension = "VRMC_node_constraint";

const kinds = {
  roll: (random) => ({ rollAxis: random.pick(["X", "Y", "Z"]) }),
  aim: (random) => ({ aimAxis: random.pick(["PositiveX", "NegativeX", "PositiveY", "NegativeY", "PositiveZ", "NegativeZ"]) }),
  rotation: () => ({}),
};

/** Nodes in random trees; the list is shuffled, since a child may come before its parent. */
function randomNodes(random) {
  const count = 3 + random.below(12);
  const places = Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; --i) {
    const other = random.below(i + 1);
    [places[i], places[other]] = [places[other], places[i]];
  }
  const nodes = Array.from({ length: count }, (_, i) => ({
    name: `node_${i}`,
    translation: [random.below(5), 1 + random.below(5), random.below(5)],
  }));
  const roots = [];
  for (let i = 0; i < count; ++i) {
    if (i === 0 || random.next() < 0.2) roots.push(places[i]);
    else (nodes[places[random.below(i)]].children ??= []).push(places[i]);
  }
  return { nodes, roots };
}

/** A glTF document with 1 to 6 constraints, at most one a node, whose source is any other node. */
export function randomScene(seed, { zeroes }) {
  const random = seeded(seed);
  const { nodes, roots } = randomNodes(random);
  const weights = [1, 0.5, undefined, ...(zeroes ? [0] : [])];
  const wanted = 1 + random.below(6);
  for (let i = 0; i < wanted; ++i) {
    const owner = random.below(nodes.length);
    const from = random.below(nodes.length);
    if (owner === from || nodes[owner].extensions) continue;
    const kind = random.pick(Object.keys(kinds));
    const weight = random.pick(weights);
    const settings = { ...kinds[kind](random), source: from, ...(weight === undefined ? {} : { weight }) };
    nodes[owner].extensions = { [extension]: { specVersion: "1.0", constraint: { [kind]: settings } } };
  }
  return { asset: { version: "2.0" }, extensionsUsed: [extension], scene: 0, scenes: [{ nodes: roots }], nodes };
}

export const constraintOf = (node) => node.extensions?.[extension]?.constraint;
export const settingsOf = (constraint) => constraint.roll ?? constraint.aim ?? constraint.rotation;
export const hasZero = (scene) => scene.nodes.some((node) => constraintOf(node) && settingsOf(constraintOf(node)).weight === 0);
