// Which page is shown, how large, and what happens when a box is pressed?

const surface = byId("surface");
const planSheet = byId("plan-sheet");
const otherSheet = byId("other-sheet");
const largestZoom = 16;
let shownPage = 0;
let zoom = 1;
let pagesOfAbout = null;

function viewName(view) {
  const name = data.views[view][0];
  return name[0].toUpperCase() + name.slice(1);
}

function shownSheet() {
  return otherSheet.hidden ? planSheet : otherSheet;
}

/** Makes the boxes of a sheet fit for keys and screen readers. */
function prepareSheet(sheet, title) {
  const svg = sheet.querySelector("svg");
  if (!svg) return;
  svg.removeAttribute("aria-labelledby");
  svg.setAttribute("role", "group");
  svg.setAttribute("aria-label", title);
  svg.removeAttribute("width");
  svg.removeAttribute("height");
  for (const box of svg.querySelectorAll("[data-about]")) {
    const about = thingOfAbout(box.dataset.about);
    if (!about) continue;
    box.setAttribute("role", box.querySelector("[data-about]") ? "group" : "button"); // a button holds no others
    box.setAttribute("tabindex", "-1");
    box.setAttribute("aria-label", labelOf(box, about));
  }
}

/** What is written in a box and its titles, in that order. Set apart by spaces, which readers of the text want there as well. */
function labelOf(box, about) {
  const texts = [...box.querySelectorAll("title, text")];
  texts.forEach((text) => text.after(" "));
  const words = texts.map((text) => text.textContent.trim()).filter(Boolean);
  return words.join(" ") || nameOf(about);
}

/** "bone:3" as a thing; groups and cycles likewise. null for what is none. */
function thingOfAbout(about) {
  const [kind, id] = about.split(":");
  const known = ["bone", "property", "object", "group", "cycle"].includes(kind);
  return known && /^\d+$/.test(id) ? thing(kind, Number(id)) : null;
}

function showPage(index) {
  shownPage = index;
  const page = data.pages[index];
  otherSheet.hidden = index === 0;
  planSheet.hidden = index !== 0;
  if (index === 0) {
    otherSheet.replaceChildren();
  } else {
    otherSheet.replaceChildren(byId(`page-${index}`).content.cloneNode(true));
    prepareSheet(otherSheet, page.title);
  }
  byId("page-choice").value = String(index);
  byId("page-before").disabled = index === 0;
  byId("page-after").disabled = index + 1 === data.pages.length;
  byId("page-line").textContent = `${data.views[page.view][1]} (page ${index + 1} of ${data.pages.length})`;
  surface.setAttribute("aria-label", `Drawing: ${page.title}`);
  setZoom(fittingZoom());
  surface.scrollTo(0, 0);
  refreshMarks();
}

/** The size at which the whole page is seen, as a share of the width. */
function fittingZoom() {
  const box = shownSheet().querySelector("svg")?.viewBox.baseVal;
  if (!box || !box.height || !surface.clientWidth) return 1;
  return Math.min(1, surface.clientHeight / ((surface.clientWidth * box.height) / box.width));
}

/** Keeps what is in the middle there, or at a point of the surface. */
function setZoom(value, x = surface.clientWidth / 2, y = surface.clientHeight / 2) {
  const before = zoom;
  zoom = Math.min(largestZoom, Math.max(fittingZoom(), value));
  const [left, top] = [surface.scrollLeft + x, surface.scrollTop + y];
  const svg = shownSheet().querySelector("svg");
  if (svg) svg.style.width = `${zoom * 100}%`;
  surface.scrollTo((left * zoom) / before - x, (top * zoom) / before - y);
  byId("zoom-out").disabled = zoom <= fittingZoom();
  byId("zoom-in").disabled = zoom >= largestZoom;
}

function firstPageOf(view, subject) {
  return data.pages.findIndex((page) => data.views[page.view][0] === view && page.subject === subject);
}

/** The pages on which a thing is drawn. Looked up once. */
function pagesWith(about) {
  if (!pagesOfAbout) {
    pagesOfAbout = new Map();
    data.pages.forEach((_, index) => {
      const root = index === 0 ? planSheet : byId(`page-${index}`).content;
      for (const box of root.querySelectorAll("[data-about]")) {
        const pages = pagesOfAbout.get(box.dataset.about) || [];
        if (pages.at(-1) !== index) pages.push(index);
        pagesOfAbout.set(box.dataset.about, pages);
      }
    });
  }
  return pagesOfAbout.get(about) || [];
}

/** Of the pages with a thing the best to see it on: the one at hand, one of its own, one of its group, any. */
function bestPageOf(target) {
  const pages = pagesWith(aboutOf(target));
  if (pages.includes(shownPage)) return shownPage;
  const own = { property: "switch", cycle: "cycle", group: "group" }[target.kind];
  const group = target.kind === "bone" ? bones.group[target.id] : -1;
  const is = (view, subject) => (index) => data.views[data.pages[index].view][0] === view && data.pages[index].subject === subject;
  return pages.find(is(own, target.id)) ?? pages.find(is("group", group)) ?? pages[0] ?? -1;
}

/** Shows a page with the thing, its box in sight. Says where there is none. */
function showInDrawing(target, page = bestPageOf(target)) {
  if (page < 0) return say(`${nameOf(target)} is on no page`);
  if (page !== shownPage) showPage(page);
  bringIntoSight(boxesOf(shownSheet(), aboutOf(target))[0]);
}

function bringIntoSight(box) {
  if (!box) return;
  const place = box.getBoundingClientRect();
  if (place.height < 18) setZoom((zoom * 24) / Math.max(place.height, 1));
  const [frameAt, boxAt] = [surface.getBoundingClientRect(), box.getBoundingClientRect()];
  const isInside = boxAt.left >= frameAt.left && boxAt.right <= frameAt.right && boxAt.top >= frameAt.top && boxAt.bottom <= frameAt.bottom;
  if (isInside) return;
  surface.scrollBy(
    boxAt.left + boxAt.width / 2 - frameAt.left - frameAt.width / 2,
    boxAt.top + boxAt.height / 2 - frameAt.top - frameAt.height / 2
  );
}

/** What a press on a box does; with the shift key, the path between it and what is chosen already. */
function pressBox(box, isShifted) {
  const target = thingOfAbout(box.dataset.about);
  const isEnd = ["bone", "property", "object"].includes(target.kind) && chosenThing !== null && !isSame(target, chosenThing);
  if (isShifted && isEnd) showPathBetween(chosenThing, target, byId("path"));
  else openAbout(target);
}

/** A group or cycle shows its first page, all else its card. */
function openAbout(target) {
  if (target.kind === "group" || target.kind === "cycle") {
    const page = firstPageOf(target.kind, target.id);
    if (page < 0) return say(`there is no page of this ${target.kind}`);
    showPage(page);
    noteInAddress("page", data.pages[page].name);
    surface.focus({ preventScroll: true });
    say(data.pages[page].title);
  } else {
    openCard(target);
  }
}

/** Of the boxes of the page the nearest one in a direction. */
function nextBox(box, dx, dy) {
  const centre = (node) => {
    const { left, top, width, height } = node.getBoundingClientRect();
    return [left + width / 2, top + height / 2];
  };
  const [x, y] = centre(box);
  let best = null;
  let least = Infinity;
  for (const other of shownSheet().querySelectorAll("[data-about][tabindex]")) {
    const [ox, oy] = centre(other);
    const along = (ox - x) * dx + (oy - y) * dy;
    const aside = Math.abs((ox - x) * dy) + Math.abs((oy - y) * dx);
    if (other === box || along <= 1) continue;
    if (along + 3 * aside < least) [best, least] = [other, along + 3 * aside];
  }
  return best;
}

const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

function focusBox(box) {
  if (!box) return;
  box.focus({ preventScroll: true });
  bringIntoSight(box);
}

function onSurfaceKey(event) {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const box = event.target.closest("[data-about]");
  if (event.key === "+" || event.key === "=") setZoom(zoom * 1.4);
  else if (event.key === "-") setZoom(zoom / 1.4);
  else if (event.key === "0") setZoom(0);
  else if (box && arrows[event.key]) focusBox(nextBox(box, ...arrows[event.key]));
  else if (box && (event.key === "Enter" || event.key === " ")) pressBox(box, event.shiftKey);
  else if (box && event.key === "Escape") surface.focus({ preventScroll: true });
  else if (!box && arrows[event.key]) surface.scrollBy(80 * arrows[event.key][0], 80 * arrows[event.key][1]);
  else if (!box && event.key === "Enter") focusBox(shownSheet().querySelector("[data-about][tabindex]"));
  else return;
  event.preventDefault();
  event.stopPropagation();
}

/** Dragging with a mouse or pen moves the drawing; fingers scroll it anyway. */
function listenToDrags() {
  let start = null;
  let isDragged = false;
  surface.addEventListener("pointerdown", (event) => {
    isDragged = false;
    if (event.pointerType === "touch" || event.button !== 0) return;
    start = { x: event.clientX, y: event.clientY, left: surface.scrollLeft, top: surface.scrollTop };
  });
  window.addEventListener("pointermove", (event) => {
    if (!start) return;
    const [dx, dy] = [event.clientX - start.x, event.clientY - start.y];
    if (Math.abs(dx) + Math.abs(dy) > 4) isDragged = true;
    if (isDragged) surface.scrollTo(start.left - dx, start.top - dy);
    surface.classList.toggle("dragged", isDragged);
  });
  window.addEventListener("pointerup", () => {
    start = null;
    surface.classList.remove("dragged");
  });
  surface.addEventListener("click", (event) => {
    const box = event.target.closest("[data-about][tabindex]");
    if (box && !isDragged) pressBox(box, event.shiftKey);
  });
}

function listPages() {
  const list = byId("page-list");
  const choice = byId("page-choice");
  data.views.forEach(([, summary], view) => {
    const pages = data.pages.map((page, index) => ({ page, index })).filter(({ page }) => page.view === view);
    if (pages.length === 0) return;
    const title = make("h3", {}, `${viewName(view)}: `, make("span", { class: "note" }, summary));
    const open = ({ page, index }) => makeButton(nameNode(page.title, "title"), () => showPage(index), { class: "link" });
    list.append(title, listInPart(pages, 40, open, { class: "plain many" }));
    const options = pages.map(({ page, index }) => make("option", { value: index }, shortened(page.title, 90)));
    choice.append(make("optgroup", { label: viewName(view) }, ...options));
  });
}

function fillDrawings() {
  if (data.pages.length === 0) {
    byId("drawings").hidden = true;
    return;
  }
  listPages();
  prepareSheet(planSheet, data.pages[0].title);
  showPage(0);
  byId("to-plan").addEventListener("click", () => showPage(0));
  byId("page-before").addEventListener("click", () => showPage(shownPage - 1));
  byId("page-after").addEventListener("click", () => showPage(shownPage + 1));
  byId("page-choice").addEventListener("change", (event) => showPage(Number(event.target.value)));
  byId("zoom-in").addEventListener("click", () => setZoom(zoom * 1.4));
  byId("zoom-out").addEventListener("click", () => setZoom(zoom / 1.4));
  byId("zoom-fit").addEventListener("click", () => setZoom(0));
  surface.addEventListener("keydown", onSurfaceKey);
  surface.addEventListener(
    "wheel",
    (event) => {
      if (!event.ctrlKey) return;
      event.preventDefault();
      const at = surface.getBoundingClientRect();
      setZoom(zoom * Math.exp(-event.deltaY / 300), event.clientX - at.left, event.clientY - at.top);
    },
    { passive: false }
  );
  new ResizeObserver(() => setZoom(zoom)).observe(surface);
  listenToDrags();
}
