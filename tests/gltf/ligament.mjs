// What does the program say of some files?
import { spawnSync } from "node:child_process";

function run(program, words) {
  const { status, stdout, stderr, error } = spawnSync(program, words, { encoding: "utf8", maxBuffer: 1 << 30, timeout: 60_000 });
  if (error) throw error;
  if (![0, 1, 2].includes(status)) throw new Error(`ligament ${words[0]} ended with status ${status}: ${stderr.slice(0, 2000)}`);
  return { status, stdout, stderr };
}

/** The faults of one file: lines `file:line:column: message (/json/pointer)`. */
function faultsOf(path, stderr) {
  const faults = [];
  for (const line of stderr.split("\n")) {
    if (!line.startsWith(`${path}:`)) continue;
    const rest = line.slice(path.length + 1);
    const [, place, message] = rest.match(/^(?:(\d+:\d+): | ?)(.*)$/);
    faults.push({ place: place ?? "", message, pointer: message.match(/ \((\/[^ ]*)\)$/)?.[1] ?? "" });
  }
  return faults;
}

/**
 * Checks files, many in one call. Of each: {path, report} where it could be read, else {path, faults}. Their order is kept.
 * Every file gets one of both, or this throws.
 */
export function check(program, paths, batch = 100) {
  const results = [];
  for (let first = 0; first < paths.length; first += batch) {
    const some = paths.slice(first, first + batch);
    const { stdout, stderr } = run(program, ["check", "--format", "json", ...some]);
    const parsed = stdout === "" ? [] : JSON.parse(stdout);
    const reports = new Map((Array.isArray(parsed) ? parsed : [parsed]).map((report) => [report.source, report]));
    for (const path of some) {
      const faults = faultsOf(path, stderr);
      const report = reports.get(path);
      if (Boolean(report) === faults.length > 0) throw new Error(`${path}: ${report ? "a report and faults" : "neither a report nor faults"}\n${stderr}`);
      results.push(report ? { path, report } : { path, faults });
    }
  }
  return results;
}

/** Writes what was read of `path` as a rig description. */
export function convert(program, path, to) {
  const { status, stderr } = run(program, ["convert", path, "-o", to]);
  if (status !== 0) throw new Error(`convert ${path}: status ${status}: ${stderr}`);
}
