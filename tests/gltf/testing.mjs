// How do these tests run? One after the other; a fault is told with its test, and ends the program with status 1.
const tests = [];

export function test(name, body) {
  tests.push({ name, body });
}

export async function runTests() {
  let failed = 0;
  for (const { name, body } of tests) {
    const begin = performance.now();
    try {
      await body();
      console.log(`ok    ${name} (${Math.round(performance.now() - begin)} ms)`);
    } catch (error) {
      failed += 1;
      console.log(`FAULT ${name}\n${error.stack}`);
    }
  }
  console.log(`${tests.length} tests, ${failed} faults`);
  process.exitCode = failed > 0 ? 1 : 0;
}
