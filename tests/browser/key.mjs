// The round trip: what a lead reads off the printed key, typed in for every sheet, has to be marked right.
import { cpSync, rmSync } from 'node:fs';
import { Program } from './program.mjs';
import { is_paper, pages_of, placed_words } from './paper.mjs';

export const KEY_CHECKS = [
    'key: paper size', 'key: a row for each sheet', 'key: an answer for each ask in each row',
    'key: a figure or a word is not broken over lines', 'key: what it says is marked right',
    'key: letters of another sheet are not all right', 'key: no heading alone at the foot of a page',
];

const middle = (word) => (word.left + word.right) / 2;

/** Words that stand over each other, as one column: the numbers of the head, even where one is broken over lines. */
function columns(words, asks) {
    const head = words.find((word, n) => /^Shee?t?$/.test(word.text) && words.slice(n + 1, n + 3).some((w) => w.text === 'Name'));
    if (!head) return null;
    const first = words.find((word) => word.top > head.bottom && Math.abs(word.left - head.left) < 2 && word.text === '1');
    if (!first) return null;
    const name = words.find((word) => word.text === 'Name' && Math.abs(word.top - head.top) < 2);
    const digits = words.filter((word) => word.left > name.right && word.bottom > head.top && word.bottom < first.top + 1);
    const found = [];
    for (const word of digits) {
        const column = found.find((one) => Math.abs(one.middle - middle(word)) < 4);
        if (column) column.parts.push(word);
        else found.push({ middle: middle(word), parts: [word] });
    }
    found.sort((a, b) => a.middle - b.middle);
    const numbered = found.every((one, n) => one.parts.map((part) => part.text).join('') === String(n + 1));
    return found.length === asks && numbered ? { head, middles: found.map((one) => one.middle), parts: found.map((one) => one.parts) } : null;
}

/** The answers of one row: what stands in each column, parts of it in the order of their lines. */
function cells(words, middles, left) {
    const row = middles.map(() => []);
    for (const word of words.filter((one) => one.left > left)) {
        const nearest = middles.reduce((best, at, n) => (Math.abs(at - middle(word)) < Math.abs(middles[best] - middle(word)) ? n : best), 0);
        row[nearest].push(word);
    }
    return row;
}

/** Sheet number and answers of each row of the table on the key's first page, read by where the words stand. */
export function read_key(file, meeting) {
    const words = placed_words(file)[0];
    const found = columns(words, meeting.asks.length);
    if (!found) return null;
    const { head, middles, parts } = found;
    const end = words.find((word, n) => word.text === 'What' && words[n + 1]?.text === 'to' && word.top > head.bottom);
    const body = words.filter((word) => word.top > head.bottom && (!end || word.bottom < end.top + 1));
    const starts = body.filter((word) => Math.abs(word.left - head.left) < 2 && /^\d+$/.test(word.text));
    // Names stand left of the first column; the widest answer is a few letters wide.
    const left = middles[0] - (middles[1] - middles[0]) / 2;
    const rows = starts.map((start, n) => {
        const below = starts[n + 1]?.top ?? Infinity;
        const row = body.filter((word) => word.top >= start.top - 1 && word.top < below - 1);
        return { sheet: Number(start.text), cells: cells(row, middles, left) };
    });
    return { rows, head: parts };
}

/** A row as a lead types it: several boxes and numbers in brackets. */
function typed(row, meeting) {
    const answers = row.cells.map((parts, at) => {
        const text = parts.map((part) => part.text).join('');
        return meeting.asks[at].form === 'choose' ? text : `[${text.replace(/^\[|\]$/g, '')}]`;
    });
    return `${row.sheet} ${answers.join(' ')}`;
}

function right_by_sheet(program) {
    return program.json(['meeting', 'review']).sheets;
}

export function check_key(checks, meeting, file, paper) {
    const place = `meeting key --paper ${paper}`;
    checks.that('key: paper size', is_paper(pages_of(file), paper), place);
    const { rows, head } = read_key(file, meeting) ?? {};
    const whole = rows?.flatMap((row) => row.cells.map((parts, at) => [row.sheet, at + 1, parts])) ?? [];
    checks.that('key: a row for each sheet', rows?.length === meeting.sheets.length,
        `${place}: ${rows ? `${rows.length} rows` : 'the head of the table does not read Sheet, Name, 1, 2 ...'}`);
    const tell = ([sheet, ask, parts]) => `sheet ${sheet} ask ${ask} '${parts.map((p) => p.text).join(' / ')}'`;
    checks.none('key: an answer for each ask in each row', whole.filter(([, , parts]) => parts.length === 0).map(tell), place);
    const broken = (parts) => new Set(parts.map((part) => Math.round(part.top))).size > 1;
    const numbers = (head ?? []).map((parts, at) => ['head', at + 1, parts]);
    checks.none('key: a figure or a word is not broken over lines',
        [...numbers, ...whole].filter(([, , parts]) => broken(parts)).map(tell), place);
    check_headings(checks, file, place);
    return rows?.map((row) => typed(row, meeting)) ?? [];
}

/** "What to say" with nothing said under it is where a reader stops. */
function check_headings(checks, file, place) {
    const alone = placed_words(file).flatMap((words, page) => {
        const last = words.slice(-3).map((word) => word.text).join(' ');
        return last === 'What to say' ? [`page ${page + 1} ends with '${last}'`] : [];
    });
    checks.none('key: no heading alone at the foot of a page', alone, place);
}

/** Enters lines as read and tells whether every sheet is right throughout. */
export function check_round_trip(checks, program, meeting, lines) {
    const asks = meeting.asks.length;
    // Nothing to type has been told already, by the check of the rows.
    if (lines.length < 2) return;
    const wrong_home = `${program.home}-other`;
    cpSync(program.home, wrong_home, { recursive: true });
    const other = new Program(program.binary, wrong_home);
    // The control: each sheet gets its neighbour's letters, and the same reading has to find them wrong.
    const turned = lines.map((line, n) => `${line.split(' ')[0]} ${lines[(n + 1) % lines.length].split(' ').slice(1).join(' ')}`);
    other.run(['meeting', 'enter'], { input: turned.join('\n') + '\n' });
    const control = right_by_sheet(other);
    checks.that('key: letters of another sheet are not all right', control.some((one) => one.right < asks), 'meeting enter');
    rmSync(wrong_home, { recursive: true });

    program.run(['meeting', 'enter'], { input: lines.join('\n') + '\n' });
    const sheets = right_by_sheet(program);
    checks.that('key: a row for each sheet', sheets.length === meeting.sheets.length, `meeting review: ${sheets.length}`);
    const wrong = sheets.filter((one) => one.right !== asks);
    checks.none('key: what it says is marked right',
        wrong.map((one) => `sheet ${one.sheet}: ${one.right} of ${asks}, typed '${lines.find((l) => l.startsWith(`${one.sheet} `))}'`),
        'meeting review --json');
}
