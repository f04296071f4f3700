// Which rigs are looked at in the browser? Those of the examples, a big one, and one whose names try to do harm.
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";

export const hostileNames = [
  '</script><img src=x onerror="window.harmed=1">',
  "<img src=x onerror=window.harmed=2>",
  '"><svg onload=window.harmed=3>',
  "'; window.harmed=4; //",
  "{{script}} ${window.harmed=5} `",
  "</template></svg><script>window.harmed=6</script>",
  "</title></style></textarea><iframe src=javascript:window.harmed=7>",
  "<!--<script>window.harmed=8",
  "\u202egnp.exe\u202d \u2066 \u200f\u2069 right to left",
  "\u0000\u0007\u001b[31m controls \u007f\u0085",
  "__proto__",
  "=HYPERLINK(\"http://heron.invalid\")",
  "x".repeat(1000),
  "ஹ்ர் 👩‍🌾 e\u0301\u0301\u0301 \u2028 line",
];

/** Each name in every place that takes one. */
function hostileRig() {
  const bones = hostileNames.map((name, i) => ({
    name,
    group: hostileNames[(i + 1) % hostileNames.length],
    roles: i === 0 ? ["control"] : ["deform"],
    ...(i > 0 ? { parent: hostileNames[0] } : {}),
    constraints: [
      {
        name,
        kind: "custom",
        label: name,
        reads: ["position"],
        writes: ["rotation"],
        from: hostileNames[(i + 2) % hostileNames.length],
        weight: { expression: "x", inputs: { x: { property: name } } },
      },
    ],
  }));
  const properties = hostileNames.map((name) => ({ name, on: hostileNames[0], default: 0, stops: { [name]: 0, two: 1 } }));
  const objects = hostileNames.map((name) => ({ name, follows: [name] }));
  return { format: "rig-description", version: 1, name: hostileNames[0], properties, objects, bones };
}

/** Writes the rigs that are no examples. */
export function writeRigs(source) {
  writeFileSync("hostile.rig.json", JSON.stringify(hostileRig()));
  writeFileSync("big.rig.json", execFileSync("python3", [`${source}/tests/support/make_rig.py`, "2000"]));
}
