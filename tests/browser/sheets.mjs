// The printed meeting sheets, read back from the PDF and held against the kept meeting.
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beyond_edges, drawn_text, is_paper, pages_of, placed_words, squeezed } from './paper.mjs';

const LETTERS = 'abcdefghijklmnop';

export const SHEET_CHECKS = [
    'sheets: paper size', 'sheets: pages for each learner', 'sheets: name and number on every side',
    'sheets: both sides of a paper', 'sheets: every ask with its options in the order of the sheet',
    'sheets: strip of boxes', 'sheets: boxes large enough to mark', 'sheets: nothing near the edge of the paper',
    'sheets: type of 12 points or more', 'sheets: orders differ', 'sheets: right answers not always at one letter',
    'sheets: nothing of the key', 'sheets: right options look like wrong ones', 'sheets: no empty-handed paper',
    'sheets: nothing asked twice in one ask',
];

export function kept_meeting(home) {
    const folder = join(home, 'meetings');
    return JSON.parse(readFileSync(join(folder, readdirSync(folder).sort().at(-1)), 'utf8'));
}

/** The options of an ask as they stand on a sheet: [letter, option]. */
function options_on(meeting, sheet, at) {
    const { options } = meeting.asks[at];
    return [...sheet.orders[at]].map((letter, shown) => [LETTERS[shown], options[LETTERS.indexOf(letter)]]);
}

/** What has to stand on the sheet for one ask, in this order and with nothing between but a direction how to mark. */
function faults_of_ask(meeting, sheet, at, text) {
    const ask = meeting.asks[at];
    const where = `sheet ${sheet.sheet} ask ${at + 1}`;
    const begins = text.indexOf(squeezed(`${at + 1}. ${ask.text}`));
    if (begins < 0) return [`${where}: the ask is missing: '${ask.text}'`];
    if (!ask.options) return [];
    const options = options_on(meeting, sheet, at).map(([letter, option]) => squeezed(`${letter} ${option.text}`));
    const found = text.indexOf(options.join(''), begins);
    const between = found - begins - squeezed(`${at + 1}. ${ask.text}`).length;
    if (found >= 0 && between <= 40) return [];
    return [`${where}: options are not '${options.join(' ')}'`];
}

function strip_of(meeting) {
    const row = (ask, at) => `${at + 1}${(ask.options ?? []).map((_, o) => LETTERS[o]).join('')}`;
    return meeting.asks.map(row);
}

/** Rows of the strip as printed: number, its letters, and nothing else but the unit of a number. */
function faults_of_strip(meeting, sheet, text) {
    let from = text.indexOf('answersure');
    const faults = [];
    for (const row of strip_of(meeting)) {
        const at = text.indexOf(row, from);
        if (at < 0) faults.push(`sheet ${sheet.sheet}: strip lacks '${row}'`);
        else from = at + row.length;
    }
    return faults;
}

function heads(sheet, sides, side, text) {
    const number = squeezed(`Sheet ${sheet.sheet}`);
    const told = sides < 2 || text.includes(squeezed(`side ${side + 1} of ${sides}`));
    return text.includes(squeezed(sheet.name)) && text.includes(number) && told;
}

function check_texts(checks, meeting, pages, sides, place) {
    const faults = { heads: [], asks: [], strip: [], empty: [] };
    meeting.sheets.forEach((sheet, n) => {
        const own = pages.slice(n * sides, (n + 1) * sides).map(squeezed);
        own.forEach((text, side) => {
            if (!heads(sheet, sides, side, text)) faults.heads.push(`page ${n * sides + side + 1}`);
            if (text.includes('nothingstandsonthisside')) faults.empty.push(`page ${n * sides + side + 1}`);
        });
        meeting.asks.forEach((_, at) => faults.asks.push(...faults_of_ask(meeting, sheet, at, own.join(''))));
        faults.strip.push(...faults_of_strip(meeting, sheet, own[0] ?? ''));
    });
    checks.none('sheets: name and number on every side', faults.heads, place);
    checks.none('sheets: every ask with its options in the order of the sheet', faults.asks, place);
    checks.none('sheets: strip of boxes', faults.strip, place);
    // One side of a second paper with little on it is paper and a staple for nothing.
    checks.none('sheets: no empty-handed paper', faults.empty, place);
}

export function check_printed_sheets(checks, meeting, file, paper) {
    const place = `meeting sheet --paper ${paper}`;
    const sizes = pages_of(file);
    checks.that('sheets: paper size', is_paper(sizes, paper), `${place}: ${JSON.stringify(sizes[0])}`);
    const sides = sizes.length / meeting.sheets.length;
    checks.that('sheets: pages for each learner', Number.isInteger(sides),
        `${place}: ${sizes.length} pages for ${meeting.sheets.length} learners`);
    checks.that('sheets: both sides of a paper', sides === 1 || sides % 2 === 0, `${place}: ${sides} sides`);
    check_texts(checks, meeting, drawn_text(file), Math.max(1, Math.floor(sides)), place);
    checks.none('sheets: nothing near the edge of the paper', beyond_edges(file, sizes, 18), place);
    const low = placed_words(file).flat().filter((word) => word.bottom - word.top < 11);
    checks.none('sheets: type of 12 points or more', low.map((word) => word.text), place);
}

/** What stands in the kept meeting and on no sheet: reasons, statements and what a mistake means. */
function secrets(meeting) {
    const shown = squeezed(meeting.asks.map((ask) => [ask.text, ...(ask.options ?? []).map((o) => o.text)]).flat().join(' '));
    const kept = meeting.asks.flatMap((ask) => [
        ask.why, ask.says, ask.article, ask.title,
        ...(ask.options ?? []).flatMap((o) => [o.means, o.mistake]),
        ...(ask.wrong ?? []).flatMap((w) => [w.means, w.mistake]),
        ...(ask.answer ? [`>${ask.answer.value}<`] : []),
    ]);
    return kept.filter((text) => text && text.length > 3 && !shown.includes(squeezed(text)));
}

function letters_of_right(meeting) {
    return meeting.sheets.map((sheet) =>
        meeting.asks.flatMap((ask, at) =>
            ask.form === 'choose' ? [options_on(meeting, sheet, at).find(([, option]) => option.right)[0]] : [],
        ),
    );
}

/** Nothing on a sheet may tell which option is right: not its place, not its looks, not what else the file holds. */
export async function check_no_hint(checks, meeting, page, html) {
    const place = 'meeting sheet';
    const orders = new Set(meeting.sheets.map((sheet) => sheet.orders.join()));
    checks.that('sheets: orders differ', orders.size === meeting.sheets.length, `${place}: ${orders.size} orders`);
    const letters = letters_of_right(meeting).flat();
    const most = Math.max(...[...new Set(letters)].map((l) => letters.filter((other) => other === l).length));
    checks.that('sheets: right answers not always at one letter', most < letters.length * 0.6,
        `${place}: ${most} of ${letters.length}`);
    const source = squeezed(html.replace(/<style>.*?<\/style>/s, ''));
    checks.none('sheets: nothing of the key', secrets(meeting).filter((text) => source.includes(squeezed(text))), place);
    const kinds = await page.evaluate(kinds_of_options);
    checks.that('sheets: right options look like wrong ones', kinds.length === 1, `${place}: ${kinds.join(' | ')}`);
}

/** Runs in the page: the ways an option is marked up and drawn. Every option has to be drawn in the same way. */
function kinds_of_options() {
    const looks = (node) => {
        const style = getComputedStyle(node);
        return [style.color, style.font, style.backgroundColor, style.textDecorationLine, style.letterSpacing].join(',');
    };
    const kind = (option) =>
        [option.getAttributeNames().join(), [...option.children].map((c) => c.outerHTML.replace(/>.*</, '><')), looks(option)].join(';');
    return [...new Set([...document.querySelectorAll('.options > li')].map(kind))];
}

export async function check_boxes(checks, meeting, page) {
    const found = await page.evaluate(() =>
        [...document.querySelectorAll('.strip')].map((strip) =>
            [...strip.querySelectorAll('.box')].map((box) => {
                const at = box.getBoundingClientRect();
                return [at.width, at.height];
            }),
        ),
    );
    // A box for every option and one for "sure" behind each ask.
    const boxes = meeting.asks.reduce((sum, ask) => sum + (ask.options?.length ?? 0) + 1, 0);
    checks.none('sheets: strip of boxes', found.filter((strip) => strip.length !== boxes).map((s) => `${s.length} boxes, not ${boxes}`), 'meeting sheet');
    const small = found.flat().filter(([width, height]) => width < 18 || height < 18);
    checks.none('sheets: boxes large enough to mark', small.map(String), 'meeting sheet');
}

/** "Pick every one." and behind it "Mark every one that applies." reads as if two things were to be done. */
export async function check_directions(checks, page) {
    const texts = await page.evaluate(() => [...document.querySelectorAll('.side .text')].map((one) => one.textContent));
    const twice = [...new Set(texts)].filter((text) => (text.match(/(pick|mark|choose) (every|all)/gi) ?? []).length > 1);
    checks.none('sheets: nothing asked twice in one ask', twice, 'meeting sheet');
}
