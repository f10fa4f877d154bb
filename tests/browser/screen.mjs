// What every page has to hold on a screen: phone, desk, and a desk at twice the size.
import { createRequire } from 'node:module';
import { show } from './browser.mjs';

const AXE = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
// WCAG asks 4.5:1 of us; a page read in a van in sunlight gets 7:1.
const BESIDES = { 'color-contrast-enhanced': { enabled: true } };

// Twice the size of a desk of 1280 leaves 640 across; 320 is what WCAG 1.4.10 asks a page to get along with.
const SCREENS = [
    { name: 'phone', width: 360, height: 800, scale: 2 },
    { name: 'desk', width: 1280, height: 900, scale: 1 },
    { name: 'desk at 200 %', width: 640, height: 450, scale: 2 },
    { name: 'desk at 400 %', width: 320, height: 256, scale: 4 },
];
const FULLY = new Set(['phone', 'desk']);

export const SCREEN_CHECKS = [
    'page: nothing fetched', 'page: no script', 'page: language', 'page: title', 'page: headings in order',
    'page: links on the page lead somewhere', 'page: accessible (WCAG 2.2 A and AA, contrast 7:1)',
    'page: no scrolling sideways', 'page: no text past the edge', 'page: no text over other text',
    'page: nothing cut off', 'page: text of 16 px', 'page: small text of 11.5 px or more',
    'page: spaced text still fits',
];

/** Runs in the page: what can be told from the document alone. */
function about_document() {
    const levels = [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map((one) => Number(one.tagName[1]));
    const handlers = [...document.querySelectorAll('*')].filter((one) =>
        one.getAttributeNames().some((name) => name.startsWith('on')),
    );
    const links = [...document.querySelectorAll('a[href^="#"]')].map((one) => one.getAttribute('href').slice(1));
    return {
        scripts: document.scripts.length + handlers.length + document.querySelectorAll('[href^="javascript:"]').length,
        outside: [...document.querySelectorAll('[src],[href],[action],[data],[srcset]')]
            .flatMap((one) => ['src', 'href', 'action', 'data', 'srcset'].map((name) => one.getAttribute(name)))
            .filter((value) => value && !value.startsWith('#')),
        language: document.documentElement.lang,
        title: document.title.trim(),
        levels,
        dead: links.filter((id) => !document.getElementById(id)),
    };
}

function faults_of_headings(levels) {
    if (levels.length === 0) return ['no headings'];
    const faults = levels[0] === 1 ? [] : [`the first is h${levels[0]}`];
    levels.forEach((level, n) => {
        if (n > 0 && level > levels[n - 1] + 1) faults.push(`h${level} after h${levels[n - 1]}`);
    });
    return faults;
}

async function check_document(checks, page, place, file_url) {
    const about = await page.evaluate(about_document);
    checks.that('page: no script', about.scripts === 0, `${place}: ${about.scripts}`);
    checks.that('page: language', /^en(-US)?$/.test(about.language), `${place}: '${about.language}'`);
    checks.that('page: title', about.title.length > 3, `${place}: '${about.title}'`);
    checks.none('page: headings in order', faults_of_headings(about.levels), place);
    checks.none('page: links on the page lead somewhere', about.dead, place);
    const asked = page.asked.filter((address) => address !== file_url);
    checks.none('page: nothing fetched', [...about.outside, ...asked], place);
}

/** Runs in the page: every piece of visible text with its size and the places of its lines. */
function pieces_of_text() {
    // Heads of tables that are only read aloud are cut down to nothing by style.
    const aloud = (node) => {
        for (let at = node; at && at !== document.body; at = at.parentElement)
            if (getComputedStyle(at).clipPath === 'inset(50%)') return true;
        return node.closest('.skip,title,desc,style') !== null;
    };
    const seen = (node) => node.checkVisibility({ visibilityProperty: true }) && !aloud(node);
    const scrolls = (node) => {
        for (let at = node; at && at !== document.body; at = at.parentElement)
            if (['auto', 'scroll', 'hidden', 'clip'].includes(getComputedStyle(at).overflowX)) return true;
        return false;
    };
    const size = (node) => {
        const styled = parseFloat(getComputedStyle(node).fontSize);
        // In a drawing a unit is not a pixel: the drawing is made as wide as its place.
        const matrix = node instanceof SVGElement ? node.getScreenCTM() : null;
        return matrix ? styled * Math.hypot(matrix.a, matrix.b) : styled;
    };
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const pieces = [];
    for (let text = walker.nextNode(); text; text = walker.nextNode()) {
        const node = text.parentElement;
        if (!text.data.trim() || !seen(node)) continue;
        const range = document.createRange();
        range.selectNodeContents(text);
        const lines = [...range.getClientRects()].filter((r) => r.width > 0 && r.height > 0);
        pieces.push({
            text: text.data.trim().slice(0, 60),
            drawn: node instanceof SVGElement,
            body: !(node instanceof SVGElement) && node.closest('p,li,dd,dt,td,th,h1,h2,h3,h4') !== null,
            small: node.closest('.faint,.kind,.stakes,footer,.panel tbody th span,caption,nav') !== null,
            size: size(node),
            scrolls: scrolls(node),
            lines: lines.map((r) => [r.left, r.top + window.scrollY, r.right, r.bottom + window.scrollY]),
        });
    }
    return { pieces, width: document.documentElement.clientWidth, wide: document.documentElement.scrollWidth };
}

/** Two lines of text cover each other by more than the air around letters. */
function cover(a, b) {
    const across = Math.min(a[2], b[2]) - Math.max(a[0], b[0]);
    const down = Math.min(a[3], b[3]) - Math.max(a[1], b[1]);
    const lower = Math.min(a[3] - a[1], b[3] - b[1]);
    return across > 2 && down > 0.45 * lower;
}

function faults_of_overlap(pieces) {
    const lines = pieces.flatMap((piece, of) => piece.lines.map((at) => ({ of, at }))).sort((a, b) => a.at[1] - b.at[1]);
    const faults = new Set();
    lines.forEach((line, n) => {
        for (let m = n + 1; m < lines.length && lines[m].at[1] < line.at[3]; ++m)
            if (lines[m].of !== line.of && cover(line.at, lines[m].at))
                faults.add(`'${pieces[line.of].text}' and '${pieces[lines[m].of].text}'`);
    });
    return [...faults];
}

async function check_layout(checks, page, place, sizes) {
    const { pieces, width, wide } = await page.evaluate(pieces_of_text);
    checks.that('page: no scrolling sideways', wide <= width, `${place}: ${wide} px in ${width}`);
    const past = pieces.filter((one) => !one.scrolls && one.lines.some((at) => at[2] > width + 1 || at[0] < -1));
    checks.none('page: no text past the edge', past.map((one) => `'${one.text}'`), place);
    checks.none('page: no text over other text', faults_of_overlap(pieces), place);
    if (!sizes) return;
    const told = (one) => `${one.size.toFixed(1)} px '${one.text}'`;
    // A tenth of a pixel is rounding.
    checks.none('page: text of 16 px', pieces.filter((one) => one.body && !one.small && one.size < 15.9).map(told), place);
    checks.none('page: small text of 11.5 px or more', pieces.filter((one) => one.size < 11.9).map(told), place);
}

/** Runs in the page: boxes that hide a part of their text. */
function cut_off() {
    const hides = (node) => ['hidden', 'clip'].includes(getComputedStyle(node).overflowX);
    return [...document.querySelectorAll('body *')]
        .filter((one) => !one.closest('.unseen,.skip,svg,thead') && one.textContent.trim() && hides(one))
        .filter((one) => one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1)
        .map((one) => `${one.tagName.toLowerCase()} '${one.textContent.trim().slice(0, 40)}'`);
}

async function check_access(checks, page, place) {
    await page.addScriptTag({ path: AXE });
    const result = await page.evaluate(
        ([tags, rules]) => axe.run(document, { runOnly: { type: 'tag', values: tags }, rules, resultTypes: ['violations'] }),
        [TAGS, BESIDES],
    );
    const faults = result.violations.flatMap((rule) =>
        rule.nodes.map((node) => `${rule.id} at ${node.target.join(' ')}: ${node.any[0]?.message ?? rule.help}`),
    );
    checks.none('page: accessible (WCAG 2.2 A and AA, contrast 7:1)', faults, place);
}

/** WCAG 1.4.12: a reader may space text out, and nothing may be lost by it. */
async function check_spaced(checks, page, place) {
    await page.addStyleTag({
        content: '*{line-height:1.5!important;letter-spacing:.12em!important;word-spacing:.16em!important}p{margin-bottom:2em!important}',
    });
    const { pieces, width, wide } = await page.evaluate(pieces_of_text);
    const past = pieces.filter((one) => !one.drawn && !one.scrolls && one.lines.some((at) => at[2] > width + 1));
    const faults = past.map((one) => `'${one.text}'`);
    checks.none('page: spaced text still fits', wide > width ? [`${wide} px in ${width}`, ...faults] : faults, place);
}

async function check_at(checks, page, name, file, screen) {
    const place = `${name}, ${screen.name}`;
    await show(page, file);
    if (screen.name === 'phone') await check_document(checks, page, name, page.url());
    await check_layout(checks, page, place, screen.name === 'phone');
    checks.none('page: nothing cut off', await page.evaluate(cut_off), place);
    if (FULLY.has(screen.name)) await check_access(checks, page, place);
    if (screen.name === 'phone') await check_spaced(checks, page, place);
}

export { SCREENS };

/** `screens`: open pages by the name of their screen; `files`: paths by the name of what they show. */
export async function check_screens(checks, screens, files) {
    for (const [name, file] of Object.entries(files))
        for (const screen of SCREENS) await check_at(checks, screens[screen.name], name, file, screen);
}
