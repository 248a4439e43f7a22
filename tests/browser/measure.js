// SPDX-License-Identifier: GPL-3.0-or-later
// What can be told of a page only by the browser that has laid it out. The body of a function whose
// arguments are the ratio of contrast that text needs, and the names of what shall be measured.
const [needed, wanted] = arguments;
const root = document.documentElement;
const visible = (e) => e.checkVisibility({ opacityProperty: true, visibilityProperty: true });
const words = (e) => `<${e.localName}> ${e.textContent.trim().slice(0, 40)}`;

// --- colours ------------------------------------------------------------------------------------
const brush = new OffscreenCanvas(1, 1).getContext('2d', { willReadFrequently: true });
const known = new Map();
// [r, g, b, a] of whatever CSS calls a colour, all in 0..1.
function rgba(color) {
  if (!known.has(color)) {
    brush.clearRect(0, 0, 1, 1);
    brush.fillStyle = 'transparent';  // stays where the next is no colour
    brush.fillStyle = color;
    brush.fillRect(0, 0, 1, 1);
    known.set(color, [...brush.getImageData(0, 0, 1, 1).data].map((x) => x / 255));
  }
  return known.get(color);
}
const over = ([r, g, b, a], below) => [r, g, b].map((x, i) => x * a + below[i] * (1 - a)).concat(1);

// Relative luminance and contrast as WCAG defines them.
function luminance(color) {
  const [r, g, b] = color.map((x) => (x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}
function contrast(one, other) {
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

// The colour that the browser gives a page that sets none.
function canvas() {
  const probe = root.appendChild(document.createElement('i'));
  probe.style.backgroundColor = 'Canvas';
  const color = getComputedStyle(probe).backgroundColor;
  probe.remove();
  return color;
}
const paper = rgba(canvas());

const contains = (outer, inner) =>
  outer.left <= inner.left + 1 && outer.right >= inner.right - 1 &&
  outer.top <= inner.top + 1 && outer.bottom >= inner.bottom - 1;

// The box of a text as far as its drawing shows it.
function shownBox(element, range) {
  const box = range.getBoundingClientRect();
  const plot = element.closest('svg')?.getBoundingClientRect();
  if (!plot) return box;
  const [left, top] = [Math.max(box.left, plot.left), Math.max(box.top, plot.top)];
  const [right, bottom] = [Math.min(box.right, plot.right), Math.min(box.bottom, plot.bottom)];
  return new DOMRect(left, top, Math.max(0, right - left), Math.max(0, bottom - top));
}

// What is painted behind an element, nearest first; null where a picture is.
function behind(element, box) {
  const found = [];
  const plot = element.closest('svg');
  if (plot) {
    // Shapes of a plot are painted in the order of the document.
    for (const rect of [...plot.querySelectorAll('rect')].reverse()) {
      const follows = rect.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_FOLLOWING;
      if (!follows || rect.closest('defs, clipPath, mask, pattern, marker, symbol')) continue;
      if (!visible(rect) || !contains(rect.getBoundingClientRect(), box)) continue;
      const style = getComputedStyle(rect);
      if (style.fill === 'none') continue;
      if (style.fill.startsWith('url')) return null;
      const [r, g, b, a] = rgba(style.fill);
      found.push([r, g, b, a * style.fillOpacity * style.opacity]);
    }
  }
  for (let e = plot ?? element; e; e = e.parentElement) {
    const style = getComputedStyle(e);
    if (style.backgroundImage !== 'none') return null;
    found.push(rgba(style.backgroundColor));
    if (found.at(-1)[3] === 1) break;
  }
  return found;
}

function faintText() {
  const found = [];
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  for (let text = texts.nextNode(); text; text = texts.nextNode()) {
    const element = text.parentElement;
    if (!text.data.trim() || !visible(element)) continue;
    range.selectNodeContents(text);
    const box = shownBox(element, range);
    if (!box.width || !box.height) continue;
    const layers = behind(element, box);
    if (!layers) {
      found.push({ what: words(element), ratio: 0 });
      continue;
    }
    const ground = layers.reduceRight((below, layer) => over(layer, below), paper);
    const style = getComputedStyle(element);
    const drawn = element.closest('svg') && !element.closest('foreignObject');
    let [r, g, b, a] = rgba(drawn ? style.fill : style.color);
    if (drawn) a = style.fill === 'none' ? 0 : a * style.fillOpacity;
    for (let e = element; e; e = e.parentElement) a *= getComputedStyle(e).opacity;
    const ratio = contrast(over([r, g, b, a], ground), ground);
    if (ratio < needed) found.push({ what: words(element), ratio });
  }
  return found;
}

// --- layout -------------------------------------------------------------------------------------
function pictures() {
  return [...document.querySelectorAll('svg, img')].map((e) => {
    const box = e.getBoundingClientRect();
    return {
      what: words(e),
      visible: visible(e) && box.width > 0 && box.height > 0,
      loaded: e.localName !== 'img' || (e.complete && e.naturalWidth > 0),
      within: box.left >= -0.5 && box.right <= root.clientWidth + 0.5 && box.top + scrollY >= -0.5,
    };
  });
}

// Words that a drawing cuts off.
function cutText() {
  return [...document.querySelectorAll('svg text')].filter(visible).filter((e) =>
    !contains(e.closest('svg').getBoundingClientRect(), e.getBoundingClientRect())).map(words);
}

// Words in the heads of tables that are broken over lines; a unit is a word.
function brokenHeads() {
  const found = [];
  const range = document.createRange();
  for (const head of [...document.querySelectorAll('th')].filter(visible)) {
    const texts = document.createTreeWalker(head, NodeFilter.SHOW_TEXT);
    for (let text = texts.nextNode(); text; text = texts.nextNode())
      for (const word of text.data.matchAll(/[^ \t\n]+/g)) {
        range.setStart(text, word.index);
        range.setEnd(text, word.index + word[0].length);
        const tops = [...range.getClientRects()].filter((r) => r.width > 0).map((r) => r.top);
        if (tops.some((top) => Math.abs(top - tops[0]) > 1)) found.push(words(head));
      }
  }
  return [...new Set(found)];
}

// What a sheet of paper cuts off: nobody can scroll there.
function tooWide() {
  return [...document.body.querySelectorAll('*:not(svg *)')].filter((e) => {
    if (!visible(e)) return false;
    // One pixel is for those who listen.
    const hides = getComputedStyle(e).overflowX !== 'visible' && e.clientWidth > 1;
    return e.getBoundingClientRect().right > root.clientWidth + 0.5 ||
      (hides && e.localName !== 'svg' && e.scrollWidth > e.clientWidth + 1);
  }).map(words);
}

// Left and right margin that the page wants on paper, in CSS pixels; null where it does not say.
function paperMargins() {
  const pixels = { px: 1, in: 96, cm: 96 / 2.54, mm: 96 / 25.4, pt: 96 / 72 };
  const margins = [null, null];
  const read = (rules) => {
    for (const rule of rules) {
      if (rule instanceof CSSPageRule) {
        ['marginLeft', 'marginRight'].forEach((side, i) => {
          const m = /^([\d.]+)([a-z]+)$/.exec(rule.style[side]);
          if (m && m[2] in pixels) margins[i] = m[1] * pixels[m[2]];
        });
      } else if (rule.cssRules) {
        read(rule.cssRules);
      }
    }
  };
  for (const sheet of document.styleSheets) read(sheet.cssRules);
  return margins;
}

const all = {
  size: () => ({ content: root.scrollWidth, window: root.clientWidth, height: root.scrollHeight }),
  pictures,
  cutText,
  faintText,
  brokenHeads,
  tooWide,
  paperMargins,
};
return Object.fromEntries(wanted.map((name) => [name, all[name]()]));
