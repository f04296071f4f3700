// Which small glTF files are broken on purpose, and in what way? Valid ones to begin with, and one or two seeded changes in each;
// some changes are legal, and must not be complained of.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { seeded } from "./random.mjs";

/** A number as it is to be spelt in the JSON, which JSON.stringify would spell another way. */
const spelt = (text) => `@${text}@`;
const textOf = (document) => JSON.stringify(document, null, 1).replaceAll(/"@([^@"]*)@"/g, "$1");

/** A triangle; joint 0 and joint 1 of the skin move it, if it is skinned. */
function addMesh(document, isSkinned) {
  const bytes = Buffer.alloc(36 + 12 + 48);
  [0, 0, 0, 1, 0, 0, 0, 1, 0].forEach((number, i) => bytes.writeFloatLE(number, 4 * i));
  for (let vertex = 0; vertex < 3; ++vertex) {
    bytes[36 + 4 * vertex + 1] = 1;
    bytes.writeFloatLE(0.75, 48 + 16 * vertex);
    bytes.writeFloatLE(0.25, 48 + 16 * vertex + 4);
  }
  document.buffers = [{ byteLength: bytes.length, uri: `data:application/octet-stream;base64,${bytes.toString("base64")}` }];
  document.bufferViews = [
    { buffer: 0, byteLength: 36, target: 34962 },
    { buffer: 0, byteOffset: 36, byteLength: 12, target: 34962 },
    { buffer: 0, byteOffset: 48, byteLength: 48, target: 34962 },
  ];
  document.accessors = [
    { bufferView: 0, componentType: 5126, count: 3, type: "VEC3", min: [0, 0, 0], max: [1, 1, 0] },
    { bufferView: 1, componentType: 5121, count: 3, type: "VEC4" },
    { bufferView: 2, componentType: 5126, count: 3, type: "VEC4" },
  ];
  const skinned = { attributes: { POSITION: 0, JOINTS_0: 1, WEIGHTS_0: 2 } };
  document.meshes = [{ primitives: [skinned] }, { primitives: [{ attributes: { POSITION: 0 } }] }];
  if (!isSkinned) document.meshes.shift();
}

/** Two trees of joints, a skinned mesh, another skin that shares joints, and a node between two joints that is none. */
function rushes() {
  const document = {
    asset: { version: "2.0" },
    scene: 0,
    scenes: [{ nodes: [0, 9, 7] }],
    nodes: [
      { name: "rushes", children: [1, 2] },
      { name: "stem_1", children: [3], translation: [0, 1, 0] },
      { name: "stem_2", children: [4, 5] },
      { name: "stem_1_top" },
      { name: "leaf_1", children: [6] },
      { name: "leaf_2" },
      { name: "leaf_1_tip" },
      { name: "skin", mesh: 0, skin: 0 },
      { name: "leaf_skin", mesh: 0, skin: 1 },
      { name: "reed", children: [10, 8] },
      { name: "reed_top", children: [11] },
      { name: "reed_tip", mesh: 1 },
    ],
    skins: [{ joints: [3, 1, 2, 6], skeleton: 0 }, { joints: [4, 5, 6] }],
  };
  addMesh(document, true);
  return document;
}

/** A chain of joints in which children come before their parents. */
function eel() {
  const document = {
    asset: { version: "2.0" },
    scenes: [{ nodes: [6, 7] }],
    nodes: [
      { children: [] },
      { children: [0] },
      { children: [1] },
      { children: [2], rotation: [0, 0, 0, 1] },
      { children: [3] },
      { children: [4] },
      { children: [5] },
      { mesh: 0, skin: 0 },
    ],
    skins: [{ name: "eel", joints: [0, 1, 2, 3, 4, 5], skeleton: 5 }],
  };
  delete document.nodes[0].children;
  document.nodes[0].extras = { children: [99] }; // nobody's business
  addMesh(document, true);
  return document;
}

/** Trees without a skin, and two scenes. */
function punt() {
  const document = {
    asset: { version: "2.0" },
    scene: 1,
    scenes: [{ nodes: [0] }, { nodes: [0, 5] }],
    nodes: [
      { name: "punt", children: [1, 2, 3] },
      { name: "bow", mesh: 0 },
      { name: "stern" },
      { name: "bench", children: [4] },
      { name: "bench" },
      { name: "pole", children: [6] },
      { name: "pole_tip" },
    ],
  };
  addMesh(document, false);
  return document;
}

const bases = { rushes, eel, punt };

const withChildren = (document) => document.nodes.filter((node) => Array.isArray(node.children) && node.children.length > 0);
const isRoot = (document, i) => !document.nodes.some((node) => node.children?.includes(i));
const anyNode = (document, random) => random.below(document.nodes.length);
const replaceChild = (document, random, change) => {
  const { children } = random.pick(withChildren(document));
  const i = random.below(children.length);
  children[i] = change(children[i]);
};
const replaceJoint = (document, random, change) => {
  const { joints } = random.pick(document.skins);
  const i = random.below(joints.length);
  joints[i] = change(joints[i]);
};
const skinOf = (document, random) => random.pick(document.skins);
const skinnedNode = (document, random) => random.pick(document.nodes.filter((node) => node.skin !== undefined));
const tooLarge = (document, random) => document.nodes.length + random.below(3);

/** The changes; those of `skins` need a skin in the document. */
const changes = {
  child_out_of_range: (d, r) => replaceChild(d, r, () => tooLarge(d, r)),
  child_negative: (d, r) => replaceChild(d, r, () => -1 - r.below(2)),
  child_huge: (d, r) => replaceChild(d, r, () => spelt(r.pick(["4294967296", "18446744073709551616", "1e300"]))),
  child_in_halves: (d, r) => replaceChild(d, r, (child) => child + 0.5),
  child_as_text: (d, r) => replaceChild(d, r, (child) => String(child)),
  child_null: (d, r) => replaceChild(d, r, () => null),
  child_with_fraction_is_legal: (d, r) => replaceChild(d, r, (child) => spelt(`${child}.0`)),
  child_with_exponent_is_legal: (d, r) => replaceChild(d, r, (child) => spelt(`${child}${r.pick(["e0", "E+0", ".00e-0", "0e-1"])}`)),
  child_100_point_0_is_legal: (d, r) => {
    while (d.nodes.length < 101) d.nodes.push({ name: `blade_${d.nodes.length}` });
    if (isRoot(d, 100)) (d.nodes[r.below(7)].children ??= []).push(spelt("100.0"));
  },
  child_has_second_parent: (d, r) => {
    const child = r.pick(r.pick(withChildren(d)).children);
    (d.nodes[anyNode(d, r)].children ??= []).push(child);
  },
  child_twice: (d, r) => {
    const { children } = r.pick(withChildren(d));
    children.push(children[0]);
  },
  own_child: (d, r) => {
    const i = anyNode(d, r);
    (d.nodes[i].children ??= []).push(i);
  },
  parent_loop: (d, r) => {
    let last = d.nodes.findIndex((node) => node.children?.length > 0 && isRoot(d, d.nodes.indexOf(node)));
    const first = last;
    if (first < 0) return;
    while (d.nodes[last]?.children?.length > 0) last = d.nodes[last].children[0];
    if (d.nodes[last]) d.nodes[last].children = [first];
  },
  children_no_list: (d, r) => (r.pick(withChildren(d)).children = r.pick([1, "1", true, { 0: 1 }])),
  children_empty: (d, r) => (d.nodes[anyNode(d, r)].children = []),
  children_null: (d, r) => (d.nodes[anyNode(d, r)].children = null),
  node_no_object: (d, r) => (d.nodes[anyNode(d, r)] = r.pick([null, 1, "node", [], true])),
  nodes_missing: (d) => delete d.nodes,
  nodes_no_list: (d, r) => (d.nodes = r.pick([{}, 1, "nodes"])),
  nodes_empty: (d) => (d.nodes = []),
  node_name_no_text: (d, r) => (d.nodes[anyNode(d, r)].name = r.pick([1, ["a"], true])),
  node_names_equal_is_legal: (d) => d.nodes.forEach((node) => (node.name = "blade")),
  node_name_strange_is_legal: (d, r) => (d.nodes[anyNode(d, r)].name = r.pick(["", "葦:1.左", "a.b/c~0", " "])),
  node_unused_is_legal: (d) => d.nodes.push({ name: "alone", children: [d.nodes.push({ name: "below" }) - 1] }),
  node_key_unknown_is_legal: (d, r) => (d.nodes[anyNode(d, r)].colour = "green"),
  node_mesh_out_of_range: (d, r) => (d.nodes[anyNode(d, r)].mesh = d.meshes.length + r.below(2)),
  node_mesh_no_index: (d, r) => (d.nodes[anyNode(d, r)].mesh = r.pick(["0", -1, 0.5, null, [0]])),
  scene_root_has_parent: (d, r) => d.scenes[0].nodes.push(r.pick(r.pick(withChildren(d)).children)),
  scene_node_out_of_range: (d, r) => d.scenes[0].nodes.push(tooLarge(d, r)),
  scene_node_no_index: (d, r) => d.scenes[0].nodes.push(r.pick(["0", -1, 1.5, null])),
  scene_node_twice: (d) => d.scenes[0].nodes.push(d.scenes[0].nodes[0]),
  scene_nodes_no_list: (d, r) => (d.scenes[0].nodes = r.pick([0, "0", {}])),
  scene_nodes_empty: (d) => (d.scenes[0].nodes = []),
  scenes_empty: (d) => (d.scenes = []),
  scene_out_of_range: (d) => (d.scene = d.scenes.length),
  scenes_missing_is_legal: (d) => {
    delete d.scenes;
    delete d.scene;
  },
  json_broken_off: (d, r) => (d.broken = r.next()),
};
const skinChanges = {
  joint_out_of_range: (d, r) => replaceJoint(d, r, () => tooLarge(d, r)),
  joint_negative: (d, r) => replaceJoint(d, r, () => -1),
  joint_in_halves: (d, r) => replaceJoint(d, r, (joint) => joint + 0.5),
  joint_as_text: (d, r) => replaceJoint(d, r, (joint) => String(joint)),
  joint_with_exponent_is_legal: (d, r) => replaceJoint(d, r, (joint) => spelt(`${joint}e0`)),
  joint_twice: (d, r) => {
    const { joints } = skinOf(d, r);
    joints.push(r.pick(joints));
  },
  joint_in_another_tree: (d, r) => {
    d.scenes[0].nodes.push(d.nodes.push({ name: "stray" }) - 1);
    skinOf(d, r).joints.push(d.nodes.length - 1);
  },
  joints_shuffled_is_legal: (d, r) => skinOf(d, r).joints.reverse(),
  joints_missing: (d, r) => delete skinOf(d, r).joints,
  joints_empty: (d, r) => (skinOf(d, r).joints = []),
  joints_no_list: (d, r) => (skinOf(d, r).joints = r.pick([1, "1", {}, null])),
  skeleton_no_ancestor: (d, r) => {
    const skin = skinOf(d, r);
    skin.skeleton = r.pick(d.nodes.map((_, i) => i).filter((i) => !(d.nodes[i].children?.length > 0)));
  },
  skeleton_any_node: (d, r) => (skinOf(d, r).skeleton = anyNode(d, r)),
  skeleton_out_of_range: (d, r) => (skinOf(d, r).skeleton = tooLarge(d, r)),
  skeleton_no_index: (d, r) => (skinOf(d, r).skeleton = r.pick(["0", -1, 0.5])),
  skeleton_left_out_is_legal: (d, r) => delete skinOf(d, r).skeleton,
  skin_no_object: (d, r) => (d.skins[r.below(d.skins.length)] = r.pick([1, "skin", null])),
  skins_no_list: (d, r) => (d.skins = r.pick([{}, 1])),
  skins_empty: (d) => (d.skins = []),
  skins_missing: (d) => delete d.skins,
  skin_unused_is_legal: (d) => d.skins.push({ joints: [...d.skins[0].joints] }),
  skin_without_mesh: (d, r) => delete skinnedNode(d, r).mesh,
  skin_out_of_range: (d, r) => (skinnedNode(d, r).skin = d.skins.length + r.below(2)),
  skin_no_index: (d, r) => (skinnedNode(d, r).skin = r.pick(["0", -1, 0.5, null])),
  skin_on_mesh_without_joints: (d, r) => (skinnedNode(d, r).mesh = 1),
  mesh_of_skin_without_skin_is_legal: (d, r) => delete skinnedNode(d, r).skin,
  scene_without_joints: (d) => d.scenes.push({ nodes: [d.nodes.push({ name: "elsewhere", mesh: 0, skin: 0 }) - 1] }),
};

const broken = (text, share) => text.slice(0, Math.floor(share * text.length));

/** One file: its name says its base and what was changed. A change that a former one made impossible is left out. */
function mutant(seed, changeNames) {
  const random = seeded(seed);
  const names = Object.keys(bases);
  const base = names[seed % names.length];
  const document = bases[base]();
  const done = [];
  for (const name of changeNames(random, document)) {
    const change = changes[name] ?? skinChanges[name];
    if (skinChanges[name] && !(document.skins?.length > 0)) continue;
    try {
      change(document, random);
      done.push(name);
    } catch (error) {
      if (!(error instanceof TypeError)) throw error; // what it wanted to change is not there any more
    }
  }
  const text = textOf(document);
  return { name: `${base}: ${done.join(", ")}`, changes: done, text: document.broken === undefined ? text : broken(text, document.broken) };
}

/** Every change on every base that can take it, and `count` pairs of changes, as files {name, changes, path}. */
export function writeMutants(folder, count) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  const all = [...Object.keys(changes), ...Object.keys(skinChanges)];
  const mutants = [];
  for (let i = 0; i < 6 * all.length; ++i) mutants.push(mutant(i, () => [all[Math.floor(i / 6)]]));
  for (let i = 0; i < count; ++i) mutants.push(mutant(6 * all.length + i, (random) => [random.pick(all), random.pick(all)]));
  return mutants
    .filter((one) => one.changes.length > 0)
    .map(({ name, changes: done, text }, i) => {
      const path = `${folder}/${i}.gltf`;
      writeFileSync(path, text);
      return { name: `${path} (${name})`, changes: done, path };
    });
}
