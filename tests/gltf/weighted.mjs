// How may a file say which joints move a vertex? Small skins whose accessors use every freedom of the standard: component types,
// offsets, strides, sparse entries, accessors without a view, several sets of four.
import { seeded } from "./random.mjs";

const u8 = 5121;
const u16 = 5123;
const u32 = 5125;
const f32 = 5126;
const sizes = { [u8]: 1, [u16]: 2, [u32]: 4, [f32]: 4 };
const writers = { [u8]: "writeUInt8", [u16]: "writeUInt16LE", [u32]: "writeUInt32LE", [f32]: "writeFloatLE" };

/** Appends bytes at a multiple of 4 and gives a view of them. */
function addView(document, bytes, stride) {
  const offset = document.bytes.reduce((total, { length }) => total + length, 0);
  document.bytes.push(bytes, Buffer.alloc((4 - (bytes.length % 4)) % 4));
  document.bufferViews.push({ buffer: 0, byteOffset: offset, byteLength: bytes.length, ...(stride ? { byteStride: stride } : {}) });
  return document.bufferViews.length - 1;
}

/** Rows of numbers as bytes, `stride` apart, behind `offset` bytes of something else. */
function pack(rows, component, stride, offset) {
  const size = sizes[component];
  const bytes = Buffer.alloc(offset + stride * rows.length, 0xff);
  rows.forEach((row, r) => row.forEach((number, i) => bytes[writers[component]](number, offset + r * stride + i * size)));
  return bytes;
}

/** An accessor to four numbers a vertex, told in a way that the dice choose. */
function addAccessor(document, random, rows, component, more) {
  const accessor = { componentType: component, count: rows.length, type: "VEC4", ...more };
  const tight = 4 * sizes[component];
  const hasView = random.next() < 0.8;
  const isSparse = !hasView || random.next() < 0.4;
  const replaced = rows.map((_, i) => i).filter((i) => isSparse && (!hasView ? rows[i].some((number) => number !== 0) : random.next() < 0.4));
  if (hasView) {
    const stride = tight + 4 * random.below(3);
    const offset = 4 * random.below(3);
    const base = rows.map((row, i) => (replaced.includes(i) ? row.map(() => random.below(2)) : row));
    Object.assign(accessor, { bufferView: addView(document, pack(base, component, stride, offset), stride === tight ? 0 : stride), byteOffset: offset });
  }
  if (replaced.length > 0) {
    const indices = random.pick([u8, u16, u32]);
    // The offsets of 0 are told though they are what the standard takes without them (glTF 2.0, 5.3, "accessor.sparse.indices"): the
    // other reader takes the accessor's own offset there.
    accessor.sparse = {
      count: replaced.length,
      indices: { bufferView: addView(document, pack(replaced.map((i) => [i]), indices, sizes[indices], 0)), byteOffset: 0, componentType: indices },
      values: { bufferView: addView(document, pack(replaced.map((i) => rows[i]), component, tight, 0)), byteOffset: 0 },
    };
  }
  document.accessors.push(accessor);
  return document.accessors.length - 1;
}

/**
 * Of each vertex four different joints a set (or as many as there are), of which one to three have weights that make 1 over all
 * sets; the other places hold a joint with a weight of 0.
 */
function influences(random, jointCount, sets, components) {
  const wholes = { [u8]: 255, [u16]: 65535, [f32]: 1 };
  return Array.from({ length: 3 + random.below(4) }, () => {
    const free = Array.from({ length: jointCount }, (_, i) => i);
    const take = () => (free.length > 0 ? free.splice(random.below(free.length), 1)[0] : 0);
    const joints = Array.from({ length: 4 * sets }, take);
    const weights = joints.map(() => 0);
    const set = random.below(sets);
    const whole = wholes[components[set]];
    const count = Math.min(1 + random.below(3), jointCount - 4 * set);
    weights[4 * set] = whole;
    for (let i = 1; i < count; ++i) {
      const share = whole === 1 ? 0.25 : 1 + random.below(5);
      weights[4 * set] -= share;
      weights[4 * set + i] = share;
    }
    return { joints, weights };
  });
}

/** A glTF document with two skins of a few joints each. Only some of them move vertices. */
export function weightedScene(seed) {
  const random = seeded(seed);
  const jointCount = 4 + random.below(20);
  const document = { asset: { version: "2.0" }, bytes: [], bufferViews: [], accessors: [], meshes: [] };
  document.nodes = Array.from({ length: jointCount }, (_, i) => ({ name: `joint_${i}` }));
  for (let i = 1; i < jointCount; ++i) (document.nodes[random.below(i)].children ??= []).push(i);
  document.skins = [0, 1].map(() => ({ joints: document.nodes.map((_, i) => i).filter(() => random.next() < 0.8) }));
  document.skins.forEach(({ joints }) => joints.length === 0 && joints.push(0));
  document.skins.forEach(({ joints }, skin) => {
    const attributes = {};
    const first = random.below(3);
    const components = [u8, u16, f32, u8].slice(first, first + (joints.length > 8 ? 2 : 1));
    const vertices = influences(random, joints.length, components.length, components);
    components.forEach((component, set) => {
      const part = (row) => row.slice(4 * set, 4 * set + 4);
      const places = vertices.map((vertex) => part(vertex.joints));
      const weights = vertices.map((vertex) => part(vertex.weights));
      attributes[`JOINTS_${set}`] = addAccessor(document, random, places, random.pick([u8, u16]), {});
      attributes[`WEIGHTS_${set}`] = addAccessor(document, random, weights, component, component === f32 ? {} : { normalized: true });
    });
    document.meshes.push({ primitives: [{ attributes }] });
    document.nodes.push({ name: `skin_${skin}`, mesh: skin, skin });
  });
  const bytes = Buffer.concat(document.bytes);
  delete document.bytes;
  document.buffers = [{ byteLength: bytes.length, uri: `data:application/octet-stream;base64,${bytes.toString("base64")}` }];
  return document;
}
