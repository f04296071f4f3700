// What does a thing need, what does it move, and by which path? Searches over the edges of the rig.

const vertexKinds = ["bone", "pose", "solved", "constraint", "local", "base", "final", "curve", "property", "driver", "object", "solver"];
const orderKind = 5; // of edges
let unpacked = null;

/** The graph, made ready when it is first wanted. Edges are stored with the vertex that needs. */
function theGraph() {
  if (unpacked) return unpacked;
  const packed = data.graph;
  const size = packed.vertices;
  const graph = { size, grain: packed.grain, kind: unfold(packed.kinds, Uint8Array), bone: new Int32Array(size).fill(-1) };
  graph.firstOfBone = sums(unfold(packed.bones, Int32Array));
  for (let b = 0; b < bones.name.length; ++b) graph.bone.fill(b, graph.firstOfBone[b], graph.firstOfBone[b + 1]);
  [graph.firstProperty, graph.firstDriver, graph.firstObject] = packed.first;
  graph.rows = sums(unfold(packed.needs, Int32Array));
  graph.from = unfold(packed.from, Int32Array);
  graph.to = new Int32Array(graph.from.length);
  for (let v = 0; v < size; ++v)
    for (let e = graph.rows[v]; e < graph.rows[v + 1]; ++e) {
      graph.from[e] = v - graph.from[e];
      graph.to[e] = v;
    }
  graph.maker = unfold(packed.makers_of, Int32Array);
  graph.gate = unfold(packed.gates_of, Int32Array);
  graph.edgeKind = unfold(packed.kinds_of, Uint8Array);
  graph.step = new Map();
  for (let i = 0; i < packed.steps.length; i += 3) graph.step.set(packed.steps[i], [packed.steps[i + 1], packed.steps[i + 2]]);
  turn(graph);
  unpackMakers(graph, packed.makers);
  return (unpacked = graph);
}

function sums(counts) {
  const all = new Int32Array(counts.length + 1);
  counts.forEach((count, i) => (all[i + 1] = all[i] + count));
  return all;
}

/** Who needs a vertex: edges by the vertex that they come from. */
function turn(graph) {
  const counts = new Int32Array(graph.size);
  for (const from of graph.from) ++counts[from];
  graph.rowsBack = sums(counts);
  graph.edgesBack = new Int32Array(graph.from.length);
  const next = graph.rowsBack.slice();
  graph.from.forEach((from, e) => (graph.edgesBack[next[from]++] = e));
}

function unpackMakers(graph, packed) {
  graph.makerKind = unfold(packed.kind, Uint8Array);
  graph.makerElement = unfold(packed.step, Int32Array);
  for (let m = 1; m < graph.makerElement.length; ++m) graph.makerElement[m] += graph.makerElement[m - 1];
}

/** What made an edge, in words. */
function makerText(maker) {
  const graph = theGraph();
  const element = graph.makerElement[maker];
  switch (graph.makerKind[maker]) {
    case 1: return `parent link of ${bones.name[element]}`;
    case 2: return `object ${data.objects[element].name} follows it`;
    case 3: return `solver ${constraintName(element)} (${data.constraints[element].kind})`;
    case 4: return `constraint ${constraintName(element)} (${data.constraints[element].kind})`;
    case 5: return `curve handles of ${bones.name[element]}`;
    case 6: return `driver of ${data.drivers[element][0]}`;
    default: return `stack of ${bones.name[element]}`;
  }
}

function makerPlace(maker) {
  const graph = theGraph();
  const element = graph.makerElement[maker];
  const kind = graph.makerKind[maker];
  if (kind === 2) return data.objects[element].place;
  if (kind === 3 || kind === 4) return data.constraints[element].place;
  if (kind === 6) return data.drivers[element].slice(2);
  return placeOf(thing("bone", element));
}

/** The bone, property or object that a vertex belongs to, or null for drivers and solvers. */
function thingAt(v) {
  const graph = theGraph();
  if (graph.bone[v] >= 0) return thing("bone", graph.bone[v]);
  if (v < graph.firstDriver) return thing("property", v - graph.firstProperty);
  if (v >= graph.firstObject && vertexKinds[graph.kind[v]] === "object") return thing("object", v - graph.firstObject);
  return null;
}

function verticesOf({ kind, id }) {
  const graph = theGraph();
  if (kind === "property") return [graph.firstProperty + id];
  if (kind === "object") return [graph.firstObject + id];
  return Array.from({ length: graph.firstOfBone[id + 1] - graph.firstOfBone[id] }, (_, i) => graph.firstOfBone[id] + i);
}

/** Where what moves a thing arrives: of a bone its final transform and its curve. */
function arrivalsOf(target) {
  const graph = theGraph();
  if (target.kind !== "bone") return verticesOf(target);
  return verticesOf(target).filter((v) => ["bone", "final", "curve"].includes(vertexKinds[graph.kind[v]]));
}

/** Which edges count: all that are not off for good, or in the chosen state only those that do something there. */
function edgeRule(inState) {
  const graph = theGraph();
  const gates = data.graph.gates.map(([constraint, source, inert]) => {
    if (inert) return true;
    if (!inState || constraint < 0) return false;
    const { weights } = weightsInState(constraint);
    return weights[0] === 0 || (source >= 0 && weights[source + 1] === 0);
  });
  const replaced = new Map();
  if (inState)
    data.constraints.forEach((_, id) => {
      const parts = weightsInState(id).replaced;
      if (parts) replaced.set(id, parts);
    });
  return (e) => {
    if (gates[graph.gate[e]]) return false;
    if (replaced.size === 0 || graph.edgeKind[e] !== orderKind || graph.gate[e] !== 0) return true;
    const step = graph.step.get(graph.to[e]);
    const parts = step && replaced.get(step[0]);
    return !parts || (step[1] < 0 ? parts !== 7 : !((parts >> step[1]) & 1));
  };
}

/** Prices: edges that leave a bone are what makes a path long; the bones that are entered are what makes a thing far. */
function leavesBone(e) {
  const graph = theGraph();
  const from = graph.bone[graph.from[e]];
  return from >= 0 && graph.bone[graph.to[e]] !== from;
}

function entersBone(forward) {
  const graph = theGraph();
  return (e) => graph.edgeKind[e] !== orderKind && graph.bone[forward ? graph.to[e] : graph.from[e]] >= 0;
}

/**
 * Cheapest ways from some vertices over edges that count, each free or of price 1: `cost` by vertex, -1 where none leads, and
 * `by`, the edge that each was reached over. Backward: along what is needed.
 */
function search(starts, forward, counts, costs) {
  const graph = theGraph();
  const cost = new Int32Array(graph.size).fill(-1);
  const by = new Int32Array(graph.size).fill(-1);
  const done = new Uint8Array(graph.size);
  for (const v of starts) cost[v] = 0;
  let level = [...starts];
  for (let price = 0; level.length > 0; ++price) {
    const next = [];
    while (level.length > 0) {
      const v = level.pop();
      if (done[v] || cost[v] !== price) continue;
      done[v] = 1;
      const [first, end] = forward ? [graph.rowsBack[v], graph.rowsBack[v + 1]] : [graph.rows[v], graph.rows[v + 1]];
      for (let i = first; i < end; ++i) {
        const e = forward ? graph.edgesBack[i] : i;
        if (!counts(e)) continue;
        const other = forward ? graph.to[e] : graph.from[e];
        const reached = price + (costs(e) ? 1 : 0);
        if (cost[other] >= 0 && cost[other] <= reached) continue;
        cost[other] = reached;
        by[other] = e;
        (reached === price ? level : next).push(other);
      }
    }
    level = next;
  }
  return { cost, by };
}

/** All that a thing moves (forward) or needs: { thing, hops }, nearest first, then in file order. */
function findReach(start, forward, inState) {
  const graph = theGraph();
  const { cost } = search(forward ? verticesOf(start) : arrivalsOf(start), forward, edgeRule(inState), entersBone(forward));
  const found = [];
  const add = (target, vertices) => {
    let hops = -1;
    for (const v of vertices) if (cost[v] >= 0 && (hops < 0 || cost[v] < hops)) hops = cost[v];
    if (hops >= 0 && !isSame(target, start)) found.push({ thing: target, hops });
  };
  for (let b = 0; b < bones.name.length; ++b) add(thing("bone", b), forward ? arrivalsOf(thing("bone", b)) : verticesOf(thing("bone", b)));
  data.properties.forEach((_, p) => add(thing("property", p), [graph.firstProperty + p]));
  data.objects.forEach((_, o) => add(thing("object", o), [graph.firstObject + o]));
  return found.sort((a, b) => a.hops - b.hops);
}

/** The nearest things on one side, with the makers of the edges that lead there: straight, or through drivers and solvers. */
function findStraight(start, forward) {
  const graph = theGraph();
  const counts = edgeRule(false);
  const found = new Map();
  const own = new Set(verticesOf(start));
  const going = forward ? [...own] : arrivalsOf(start).concat([...own]);
  const seen = new Set(going);
  while (going.length > 0) {
    const v = going.pop();
    const [first, end] = forward ? [graph.rowsBack[v], graph.rowsBack[v + 1]] : [graph.rows[v], graph.rows[v + 1]];
    for (let i = first; i < end; ++i) {
      const e = forward ? graph.edgesBack[i] : i;
      const other = forward ? graph.to[e] : graph.from[e];
      if (!counts(e) || own.has(other)) continue;
      const target = thingAt(other);
      if (target === null) {
        if (!seen.has(other)) going.push(other);
        seen.add(other);
        continue;
      }
      const key = aboutOf(target);
      if (!found.has(key)) found.set(key, { thing: target, makers: new Set() });
      found.get(key).makers.add(graph.maker[e]);
    }
  }
  const rank = { bone: 0, property: 1, object: 2 };
  return [...found.values()].sort((a, b) => rank[a.thing.kind] - rank[b.thing.kind] || a.thing.id - b.thing.id);
}

/**
 * A path from one thing to another as steps between things: { from, to, makers }; null where there is none. First in the
 * chosen state, then in any: `inState` says which it is.
 */
function findPath(start, end) {
  for (const inState of [true, false]) {
    const steps = pathWith(start, end, edgeRule(inState));
    if (steps) return { steps, inState };
  }
  return null;
}

function pathWith(start, end, counts) {
  const graph = theGraph();
  const { cost, by } = search(verticesOf(start), true, counts, leavesBone);
  let best = -1;
  for (const v of arrivalsOf(end)) if (cost[v] >= 0 && (best < 0 || cost[v] < cost[best])) best = v;
  if (best < 0) return null;
  const edges = [];
  for (let v = best; by[v] >= 0; v = graph.from[by[v]]) edges.unshift(by[v]);
  const steps = [];
  let at = start;
  let makers = [];
  for (const e of edges) {
    const next = thingAt(graph.to[e]);
    if (next !== null && isSame(next, at) && makers.length === 0) continue;
    if (makers.at(-1) !== graph.maker[e]) makers.push(graph.maker[e]);
    if (next === null) continue;
    steps.push({ from: at, to: next, makers });
    at = next;
    makers = [];
  }
  return steps;
}
