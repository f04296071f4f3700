// Which number comes next? The same ones for the same seed on every machine.

/** A source of numbers: "mulberry32" (public domain), 32 bits of state. */
export function seeded(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  /** A whole number from 0 to count - 1. */
  const below = (count) => Math.floor(next() * count);
  const pick = (list) => list[below(list.length)];
  return { next, below, pick };
}
