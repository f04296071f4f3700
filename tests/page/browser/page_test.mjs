// Does the page do what it says, in a real browser? Every interaction once: node page_test.mjs PROGRAM SOURCE
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, statSync } from "node:fs";
import { close, findBarriers, launch, open } from "./browser.mjs";
import { hostileNames, writeRigs } from "./rigs.mjs";

const [program, source] = process.argv.slice(2);
const heron = `${source}/examples/heron.rig.json`;
const faulty = `${source}/examples/heron-faulty.rig.json`;
const ligament = (...words) => execFileSync(program, words, { encoding: "utf8", maxBuffer: 1 << 28 });

const tests = [];
/** A test opens one file and has to leave no faults behind. */
function test(name, file, options, body) {
  tests.push({ name, file, options, body });
}

const textOf = (page, selector) => page.locator(selector).innerText();
const focusedId = (page) => page.evaluate(() => document.activeElement.id);
const isInView = (page, selector) =>
  page.evaluate((wanted) => {
    const { top, bottom } = document.querySelector(wanted).getBoundingClientRect();
    return top < window.innerHeight && bottom > 0;
  }, selector);

async function openBone(page, name) {
  await page.keyboard.press("/");
  await page.keyboard.type(name);
  await page.keyboard.press("Enter");
  assert.equal(await textOf(page, "#card-title"), name);
}

/** The bones of a list of the card with their distances. */
async function listed(page, list) {
  const more = page.locator(`#${list} .more button`);
  if (await more.count()) await more.click();
  const rows = await page.locator(`#${list} li`).allInnerTexts();
  return rows.map((row) => row.replace(/\s+/g, " ").match(/^(.+) (?:straight|(\d+) away)(, not in this state)?/)).map(([, name, hops, not]) => ({ name, hops, not: Boolean(not) }));
}

/** What the program's own search says of a bone: names by direction. */
function traced(rig, bone, ...options) {
  const found = { needs: [], moves: [] };
  let way = null;
  for (const line of ligament("trace", rig, bone, "--limit", "0", ...options).split("\n")) {
    way = line.match(/^(needs|moves) /)?.[1] ?? way;
    const row = line.match(/^ +(\d+) +(\S+)/);
    if (row) found[way].push({ hops: row[1], name: row[2] });
  }
  return found;
}

test("says what it is of", "heron.html", {}, async (page) => {
  assert.equal(await textOf(page, "h1"), "heron");
  assert.match(await textOf(page, "#facts"), /249 bones \(84 deform, 58 control, 107 mechanism\), no findings; state: default/);
  assert.equal(await textOf(page, "#findings-line"), "no findings");
});

test("search by keys", "heron.html", {}, async (page) => {
  await page.keyboard.press("/");
  assert.equal(await focusedId(page), "search");
  await page.keyboard.type("FOREARM_MECH_L");
  assert.equal(await page.locator("#search").getAttribute("aria-expanded"), "true");
  assert.match(await textOf(page, "#search-status"), /^showing \d+ of \d+$/);
  const first = await page.locator("#search").getAttribute("aria-activedescendant");
  await page.keyboard.press("ArrowDown");
  const second = await page.locator("#search").getAttribute("aria-activedescendant");
  assert.notEqual(first, second);
  assert.equal(await page.locator(`#${second}`).getAttribute("aria-selected"), "true");
  await page.keyboard.press("ArrowUp");
  await page.keyboard.press("Enter");
  assert.equal(await textOf(page, "#card-title"), "wing_forearm_mech_l");
  assert.equal(await focusedId(page), "card-title");
  await page.keyboard.press("Escape");
  assert.equal(await page.locator("#card").isVisible(), false);
  assert.equal(await focusedId(page), "search");
  await page.locator("#search").fill("no such bone");
  assert.equal(await textOf(page, "#search-status"), "nothing of that name");
});

test("search finds each kind", "heron.html", {}, async (page) => {
  for (const [typed, title] of [["wing_mode_l", "wing_mode_l"], ["wing_forearm_mech_l/fk", "wing_forearm_mech_l"]]) {
    await page.locator("#search").fill(typed);
    await page.locator("#search-list li").first().click();
    assert.equal(await textOf(page, "#card-title"), title);
  }
  assert.equal(await page.locator(".constraint.sought").count(), 1);
  assert.match(await textOf(page, ".constraint.sought"), /^fk transform/);
  const object = JSON.parse(readFileSync(heron, "utf8")).objects[0].name;
  await page.locator("#search").fill(object);
  await page.locator("#search-list li", { hasText: "object" }).first().click();
  assert.equal(await textOf(page, "#card-title"), object);
});

test("groups open from the plan, by pointer and by keys", "heron.html", {}, async (page) => {
  await page.locator('#plan-sheet [data-about^="group:"] text').first().click();
  assert.equal(await page.locator("#plan-sheet").isVisible(), false);
  assert.ok((await page.locator('#other-sheet [data-about^="bone:"]').count()) > 0);
  await page.locator("#to-plan").click();
  assert.equal(await page.locator("#plan-sheet").isVisible(), true);
  await page.locator("#surface").focus();
  await page.keyboard.press("Enter");
  const box = () => page.evaluate(() => document.activeElement.dataset.about);
  const first = await box();
  assert.match(first, /^\w+:\d+$/);
  await page.keyboard.press("ArrowDown");
  if ((await box()) === first) await page.keyboard.press("ArrowRight");
  assert.notEqual(await box(), first);
  await page.evaluate(() => document.querySelector('#plan-sheet [data-about^="group:"]').focus());
  await page.keyboard.press("Enter");
  assert.equal(await page.locator("#other-sheet").isVisible(), true);
  assert.equal(await focusedId(page), "surface");
});

test("pages are listed, and turned", "heron.html", {}, async (page) => {
  const count = await page.locator("#page-choice option").count();
  assert.equal(count, (await page.locator("template").count()) + 1);
  assert.equal(await page.locator("#page-before").isDisabled(), true);
  await page.locator("#page-after").click();
  assert.equal(await page.locator("#page-choice").inputValue(), "1");
  await page.locator("#page-choice").selectOption(String(count - 1));
  assert.equal(await page.locator("#page-after").isDisabled(), true);
  await page.locator("#all-pages summary").click();
  await page.locator("#page-list button").nth(1).click();
  assert.equal(await page.locator("#page-choice").inputValue(), "1");
  assert.match(await textOf(page, "#page-line"), new RegExp(`page 2 of ${count}\\)$`));
});

test("size and place of a drawing", "heron.html", {}, async (page) => {
  const width = () => page.evaluate(() => document.querySelector("#plan-sheet svg").getBoundingClientRect().width);
  const scrolled = () => page.evaluate(() => [document.getElementById("surface").scrollLeft, document.getElementById("surface").scrollTop]);
  const whole = await width();
  await page.locator("#zoom-in").click();
  await page.locator("#zoom-in").click();
  assert.ok(Math.abs((await width()) / whole - 1.96) < 0.02);
  await page.locator("#surface").focus();
  await page.keyboard.press("+");
  assert.ok((await width()) > 2.5 * whole);
  const before = await scrolled();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowDown");
  assert.deepEqual(await scrolled(), [before[0] + 80, before[1] + 80]);
  const box = await page.locator("#surface").boundingBox();
  await page.mouse.move(box.x + 300, box.y + 200);
  await page.mouse.down();
  await page.mouse.move(box.x + 200, box.y + 150, { steps: 4 });
  await page.mouse.up();
  assert.deepEqual(await scrolled(), [before[0] + 180, before[1] + 130]);
  assert.equal(await page.locator("#card").isVisible(), false, "dragging opens nothing");
  await page.keyboard.press("0");
  assert.ok(Math.abs((await width()) - whole) < 1);
  await page.keyboard.down("Control");
  await page.mouse.wheel(0, -300);
  await page.keyboard.up("Control");
  await page.waitForFunction((least) => document.querySelector("#plan-sheet svg").getBoundingClientRect().width > least, whole * 1.5);
});

test("a bone: role, place, what it needs and moves, as the program's own search has it", "heron.html", {}, async (page) => {
  for (const bone of ["wing_forearm_mech_l", "body_ctl", "patagium_l"]) {
    await openBone(page, bone);
    const wanted = traced(heron, bone);
    for (const way of ["needs", "moves"]) {
      const rows = (await listed(page, `all-${way}`)).filter(({ name }) => wanted[way].some((row) => row.name === name));
      assert.deepEqual(rows.map(({ name, hops }) => ({ hops, name })), wanted[way], `${bone} ${way}`);
    }
  }
  assert.match(await textOf(page, "#card dl"), /role\s+deform\s+group\s+wing_l/);
  assert.match(await textOf(page, "#card dl"), /heron\.rig\.json:\d+:\d+/);
});

test("a stop of a switch: weights, and what counts then", "heron.html", {}, async (page) => {
  await openBone(page, "wing_forearm_mech_l");
  const weight = (n) => page.locator("#card .constraint .line").nth(n).innerText();
  assert.match(await weight(0), /ik transform\s+weight 1$/);
  assert.match(await weight(1), /fk transform\s+weight 0, off$/);
  await page.locator("#card .switch select").selectOption({ label: "fk" });
  assert.match(await weight(1), /fk transform\s+weight 1$/);
  assert.equal(await textOf(page, "#state-name"), "wing_mode_l=fk");
  await page.locator("#switch-details summary").click();
  await page.locator("#switch-reset").click();
  assert.match(await weight(1), /weight 0, off$/);
  assert.equal(await page.locator("#card .switch select").inputValue(), "0");
  assert.equal(await textOf(page, "#state-name"), "default");
  assert.match(await page.locator("#switch-list option").first().innerText(), /\(default\)$/);
});

test("who a control moves at a stop, as the program's own search has it", "heron.html", {}, async (page) => {
  const { bones } = JSON.parse(readFileSync(heron, "utf8"));
  const isDeform = new Map(bones.map((bone) => [bone.name, (bone.roles || []).includes("deform")]));
  for (const control of ["wing_arm_fk_l", "wing_hand_ctl_l"])
    for (const stop of ["ik", "fk"]) {
      await openBone(page, control);
      await page.locator("#switch-list select").first().evaluate(() => (document.getElementById("switch-details").open = true));
      await page.getByLabel("wing_mode_l", { exact: true }).selectOption(stop === "ik" ? { index: 0 } : { label: "fk" });
      const moved = (await listed(page, "all-moves")).filter((row) => !row.not && isDeform.get(row.name)).map(({ name }) => name);
      const wanted = JSON.parse(ligament("controls", heron, control, "--format", "json", "--state", `wing_mode_l=${stop}`)).bones.moves;
      assert.deepEqual(moved.sort(), wanted.sort(), `${control} at ${stop}`);
    }
});

test("the path between two bones, in words and in the drawing", "heron.html", {}, async (page) => {
  await openBone(page, "wing_forearm_l");
  await page.locator("#path-search").fill("wing_hand_ctl_l");
  await page.keyboard.press("Enter");
  assert.match(await textOf(page, "#path"), /^wing_hand_ctl_l reaches wing_forearm_l by \d+ steps/);
  const steps = await page.locator("#path li").allInnerTexts();
  const own = ligament("trace", heron, "wing_hand_ctl_l", "wing_forearm_l").matchAll(/-> (?!solver|driver)(\w+)/g);
  const passed = [...own].map(([, name]) => name).filter((name, i, all) => name !== all[i - 1]);
  assert.deepEqual(steps.map((step) => step.match(/→\s+(\S+)/)[1]), passed);
  assert.ok((await page.locator("#surface .mark.on-path").count()) > 0);
  assert.equal(await page.locator("#surface .mark.chosen").count() > 0, true);
  await page.locator("#all-needs").getByRole("button", { name: /^path from/ }).first().click();
  assert.match(await textOf(page, "#path"), /reaches wing_forearm_l by 1 step/);
  await page.locator("#path-search").fill("jaw");
  await page.keyboard.press("Enter");
  assert.match(await textOf(page, "#path"), /^No path joins/);
});

test("an address opens what it names", "heron.html", {}, async (page) => {
  await openBone(page, "wing_hand_ctl_l");
  assert.equal(new URL(page.url()).hash, "#bone/wing_hand_ctl_l");
  await page.reload();
  assert.equal(await textOf(page, "#card-title"), "wing_hand_ctl_l");
  await page.evaluate(() => (location.hash = "#page/plan"));
  await page.waitForFunction(() => document.getElementById("page-choice").value === "0");
});

test("shift and a press show the path to a box", "heron.html", {}, async (page) => {
  await openBone(page, "wing_arm_fk_l");
  const boxes = page.locator('#surface [data-about^="bone:"][tabindex]:visible');
  const about = await boxes.last().getAttribute("data-about");
  await boxes.last().focus();
  await page.keyboard.press("Shift+Enter");
  assert.equal(await textOf(page, "#card-title"), "wing_arm_fk_l");
  const name = JSON.parse(readFileSync(heron, "utf8")).bones[Number(about.split(":")[1])].name;
  assert.ok((await textOf(page, "#path")).includes(name));
});

test("a box of a bone opens it", "heron.html", {}, async (page) => {
  await page.locator('#plan-sheet [data-about^="group:"] text').first().click();
  await page.locator("#zoom-in").click();
  const box = page.locator('#other-sheet [data-about^="bone:"][tabindex]').first();
  await box.focus();
  await page.keyboard.press("Enter");
  const id = Number((await box.getAttribute("data-about")).split(":")[1]);
  const name = JSON.parse(readFileSync(heron, "utf8")).bones[id].name;
  assert.equal(await textOf(page, "#card-title"), name);
  const [framed, boxed] = [await page.locator("#surface .mark.chosen rect").first().boundingBox(), await box.boundingBox()];
  assert.ok(framed.x < boxed.x && framed.x + framed.width > boxed.x + boxed.width && framed.y < boxed.y, "the frame goes around the box");
  await page.locator("#card-close").click();
  assert.equal(await page.locator("#card").isVisible(), false);
  assert.equal(await page.locator(".mark").count(), 0);
});

test("findings lead to bones, drawings and states", "faulty.html", {}, async (page) => {
  assert.match(await textOf(page, "#findings-line"), /^showing 57 of 57/);
  const lost = page.locator(".finding", { hasText: "deform-lost-in-state" }).first();
  assert.match(await lost.innerText(), /■ error deform-lost-in-state/);
  const bone = await lost.locator(".bones button").first().innerText();
  await lost.locator(".bones button").first().click();
  assert.equal(await textOf(page, "#card-title"), bone);
  assert.equal(await isInView(page, "#surface"), true);
  assert.ok((await page.locator("#surface .mark.chosen").count()) > 0);
  await page.locator("#card button", { hasText: "wing_mode_l=fk" }).first().click();
  assert.equal(await textOf(page, "#state-name"), "wing_mode_l=fk");
  assert.match(await textOf(page, "#card"), /root-only at wing_mode_l=fk, as chosen/);
  await page.keyboard.press("Escape");
  const cycle = page.locator(".finding", { hasText: "error cycle" }).first();
  await cycle.getByRole("button", { name: /^cycle \d+/ }).click();
  assert.match(await textOf(page, "#page-line"), /^a cycle, edge by edge/);
});

test("findings are filtered by severity and by words", "faulty.html", {}, async (page) => {
  await page.locator('#findings-bar input[value="error"]').uncheck();
  assert.match(await textOf(page, "#findings-line"), /^showing 47 of 57/);
  assert.equal(await page.locator(".finding.is-error").count(), 0);
  await page.locator('#findings-bar input[value="error"]').check();
  await page.locator("#finding-filter").fill("breast_plume");
  assert.ok((await page.locator(".finding").count()) >= 1);
  for (const text of await page.locator(".finding").allInnerTexts()) assert.match(text, /breast_plume/);
});

test("tables are sorted and copied", "heron.html", {}, async (page) => {
  await page.evaluate(() => {
    window.copied = [];
    Object.defineProperty(navigator, "clipboard", { value: { writeText: async (text) => void window.copied.push(text) } });
  });
  const table = page.locator("#order-table");
  const column = (n) => table.locator(`tbody td:nth-child(${n})`).allInnerTexts();
  assert.equal((await column(1)).length, 200);
  assert.match(await table.innerText(), /showing 200 of 249 rows/);
  await table.getByRole("button", { name: "show all" }).click();
  assert.equal((await column(1)).length, 249);
  await table.getByRole("button", { name: "slack" }).click();
  const slack = (await column(5)).map(Number);
  assert.deepEqual(slack, slack.slice().sort((a, b) => a - b));
  assert.equal(await table.locator("th").nth(4).getAttribute("aria-sort"), "ascending");
  await table.getByRole("button", { name: "slack" }).press("Enter");
  assert.equal(await table.locator("th").nth(4).getAttribute("aria-sort"), "descending");
  await table.getByRole("button", { name: "bone", exact: true }).click();
  assert.equal(await table.locator("th[aria-sort]").count(), 1);
  const order = ligament("check", "--format", "json", heron);
  const { bones } = JSON.parse(order).order;
  await table.getByRole("button", { name: "place" }).click();
  assert.deepEqual(await column(2), bones);
  await table.getByRole("button", { name: "Copy" }).click();
  const [text] = await page.evaluate(() => window.copied);
  const lines = text.trimEnd().split("\n").map((line) => line.split("\t"));
  assert.deepEqual(lines[0], ["place", "bone", "group", "level", "slack", "remark"]);
  assert.deepEqual(lines.slice(1).map((line) => line[1]), bones);
});

test("a clipboard that is shut", "heron.html", {}, async (page) => {
  await page.evaluate(() => Object.defineProperty(navigator, "clipboard", { value: { writeText: () => Promise.reject(new Error("shut")) } }));
  await page.locator("#fan-out-table").getByRole("button", { name: "Copy" }).click();
  const box = page.locator("#fan-out-table textarea");
  assert.match(await box.inputValue(), /^property\ton\tweights\tchannels/);
  assert.equal(await box.evaluate((node) => node === document.activeElement && node.selectionEnd === node.value.length), true);
});

test("states, limb by limb, as the program tells them", "heron.html", {}, async (page) => {
  const { groups } = JSON.parse(ligament("states", "--format", "json", heron));
  const rows = await page.locator("#states-table tbody tr").count();
  assert.equal(rows, groups.reduce((sum, group) => sum + group.rows.length, 0));
  const neck = page.locator("#states-table tr", { hasText: "neck_1" }).first(); // whoever moves all of a limb moves each bone of it
  assert.match(await neck.innerText(), /neck_base_ctl/);
  const fk = page.locator("#states-table tr", { hasText: "wing_mode_l=fk" }).first();
  assert.match(await fk.innerText(), /wing_arm_fk_l/);
  await fk.getByRole("button", { name: "wing_mode_l=fk" }).click();
  assert.equal(await textOf(page, "#state-name"), "wing_mode_l=fk");
});

test("prints plan, findings and tables", "faulty.html", {}, async (page) => {
  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  for (const shown of ["#plan-sheet svg", "#finding-list", "#order-table table", "#states-table table", "h1"])
    assert.equal(await page.locator(shown).isVisible(), true, shown);
  for (const hidden of ["#search", ".parts", "#switches", "#zoom-in", "#all-pages", "#surface-keys"])
    assert.equal(await page.locator(hidden).isVisible(), false, hidden);
  assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), "rgb(255, 255, 255)");
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  assert.doesNotMatch(await page.locator("#states-table table").innerText(), /showing/, "cells are whole on paper");
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  assert.match(await page.locator("#states-table table").innerText(), /showing 6 of/);
  assert.ok((await page.pdf({ path: "faulty.pdf", format: "A4", landscape: true })).length > 10000);
});

for (const colorScheme of ["light", "dark"])
  test(`no barriers, ${colorScheme}`, "faulty.html", { colorScheme }, async (page) => {
    await page.screenshot({ path: `page-${colorScheme}.png` });
    await openBone(page, "wing_forearm_mech_r");
    await page.locator("#path-search").fill("wing_hand_ctl_r");
    await page.keyboard.press("Enter");
    await page.locator("#switch-details summary").click();
    await page.locator("#all-pages summary").click();
    await page.locator("#search").fill("wing");
    assert.deepEqual(await findBarriers(page), []);
    await page.screenshot({ path: `page-${colorScheme}-open.png` });
  });

test("fits 400 px", "faulty.html", { viewport: { width: 400, height: 800 } }, async (page) => {
  const overflow = () => page.evaluate(() => document.scrollingElement.scrollWidth);
  assert.ok((await overflow()) <= 400, `${await overflow()} px`);
  await page.screenshot({ path: "page-narrow.png" });
  await openBone(page, "wing_forearm_mech_r");
  assert.ok((await overflow()) <= 400, `${await overflow()} px with the card`);
  assert.deepEqual(await findBarriers(page), []);
  await page.screenshot({ path: "page-narrow-card.png" });
});

test("names that try to do harm", "hostile.html", {}, async (page) => {
  for (const view of await page.locator("#page-choice option").all()) await page.locator("#page-choice").selectOption(await view.getAttribute("value"));
  const titles = await page.locator("#page-choice option").allInnerTexts();
  assert.deepEqual(titles.filter((title) => title.includes("\\u2068")), [], "marks of the drawings' own");
  await page.locator("#search").fill("harmed=1");
  await page.keyboard.press("Enter");
  assert.equal(await textOf(page, "#card-title"), hostileNames[0]);
  await page.locator("#search").fill("xxxxxxxxxx");
  await page.locator("#search-list li", { hasText: "bone" }).first().click();
  assert.equal((await textOf(page, "#card-title")).length, 1000);
  assert.ok((await page.evaluate(() => document.scrollingElement.scrollWidth)) <= 1400);
  await page.locator("#search").fill("gnp.exe");
  await page.keyboard.press("Enter");
  assert.match(await textOf(page, "#card-title"), /^\\u202egnp\.exe\\u202d/);
  for (const copy of await page.getByRole("button", { name: "Copy" }).all()) await copy.click();
  assert.equal(await page.locator("img, iframe, main script, aside script, svg script").count(), 0);
  const shown = await page.evaluate(() => document.body.innerText);
  // Drawings may set a name apart by first-strong isolates of their own (U+2068); nothing of the names themselves is left.
  assert.equal(shown.match(/[\u202a-\u202e\u2066\u2067]/u), null, "marks that turn the direction of writing");
  assert.match(await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content"), /^default-src 'none';.*script-src 'sha256-[\w+/]{43}='$/);
});

test("2,000 bones", "big.html", {}, async (page) => {
  const { loaded, painted } = await page.evaluate(() => ({
    loaded: performance.getEntriesByType("navigation")[0].loadEventEnd,
    painted: performance.getEntriesByName("first-contentful-paint")[0]?.startTime,
  }));
  console.log(`    2,000 bones: ${(statSync("big.html").size / 1e6).toFixed(1)} MB, loaded in ${Math.round(loaded)} ms, first paint at ${Math.round(painted)} ms`);
  assert.ok(loaded < 8000, "far above what a page of this size takes");
  const start = Date.now();
  await openBone(page, "root");
  assert.ok((await page.locator("#all-moves li").count()) > 0);
  console.log(`    the bone that moves everything is shown in ${Date.now() - start} ms, keys included`);
  assert.match(await textOf(page, "#all-moves"), /showing 20 of [12],\d{3}/);
});

test("a page of a state", "fk.html", {}, async (page) => {
  assert.match(await textOf(page, "#facts"), /state: wing_mode_l=fk/);
  await openBone(page, "wing_forearm_mech_l");
  assert.match(await page.locator("#card .constraint .line").nth(1).innerText(), /weight 1$/);
  assert.match(await page.locator("#card .switch option").first().innerText(), /^fk \(as the page has it\)$/);
});

test("an index of several rigs", "pages/index.html", {}, async (page) => {
  assert.equal(await page.locator("tbody tr").count(), 2);
  assert.match(await page.locator("tbody tr").nth(1).innerText(), /tangled heron[\s\S]*error: /);
  assert.deepEqual(await findBarriers(page), []);
  assert.equal(await page.getByRole("link", { name: "tangled heron" }).getAttribute("href"), "tangled.html");
  assert.ok(statSync("pages/tangled.html").size > 1000);
});

function writePages() {
  writeRigs(source);
  for (const [rig, file, ...options] of [[heron, "heron.html"], [faulty, "faulty.html"], ["hostile.rig.json", "hostile.html"], ["big.rig.json", "big.html"], [heron, "fk.html", "--state", "wing_mode_l=fk"]]) {
    const start = Date.now();
    ligament("report", rig, "-o", file, ...options);
    console.log(`    ${file}: written in ${Date.now() - start} ms, ${(statSync(file).size / 1e6).toFixed(1)} MB`);
  }
  ligament("report", `${source}/tests/cli/rigs/marsh.rig.json`, `${source}/tests/cli/rigs/tangled.rig.json`, "-o", "pages");
}

writePages();
const wanted = process.argv[4] ?? "";
const browser = await launch();
let failed = 0;
for (const { name, file, options, body } of tests.filter((each) => each.name.includes(wanted))) {
  const start = Date.now();
  const visit = await open(browser, file, options);
  visit.page.setDefaultTimeout(5000);
  let fault = null;
  try {
    await body(visit.page);
  } catch (error) {
    fault = error;
    await visit.page.screenshot({ path: "failed.png" });
  }
  const seen = await close(visit);
  if (!fault && seen.length > 0) fault = new Error(seen.join("\n"));
  console.log(`${fault ? "FAILED" : "passed"} ${name} (${Date.now() - start} ms)${fault ? `\n${[fault.stack, ...seen].join("\n").slice(0, 3000)}` : ""}`);
  failed += fault ? 1 : 0;
}
await browser.close();
console.log(`${tests.length} tests, ${failed} failed`);
process.exit(failed > 0 ? 1 : 0);
