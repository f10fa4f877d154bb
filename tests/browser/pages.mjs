// pages.mjs PROGRAM CONTENT [--all-jobs] [--keep FOLDER]
// The pages that greentag writes, as a browser shows and prints them. Ends with 1 when a check failed.
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { open_browser, open_page, show } from './browser.mjs';
import { CALENDAR_CHECKS, check_calendar } from './calendar.mjs';
import { Checks } from './checks.mjs';
import { check_jobs, JOB_CHECKS } from './jobs.mjs';
import { check_key, check_round_trip, KEY_CHECKS } from './key.mjs';
import { check_markup, MARKUP_CHECKS } from './markup.mjs';
import { print } from './paper.mjs';
import { check_print, PRINT_CHECKS } from './print.mjs';
import { Program } from './program.mjs';
import { check_screens, SCREENS, SCREEN_CHECKS } from './screen.mjs';
import {
    check_boxes, check_directions, check_no_hint, check_printed_sheets, kept_meeting, SHEET_CHECKS,
} from './sheets.mjs';
import { BEGINNER, open_shop, SHOP } from './shop.mjs';

const PAPERS = ['letter', 'a4'];

/** Every kind of page once: its name and the words that write it. */
const KINDS = {
    'meeting sheet': ['meeting', 'sheet'],
    'meeting key': ['meeting', 'key'],
    'meeting review': ['meeting', 'review'],
    'meeting review without names': ['meeting', 'review', '--no-names'],
    'report of a winter': ['report', 'Ada Volt'],
    'report of nothing yet': ['report', BEGINNER],
    'report of the crew': ['report', '--crew'],
    'job bath fan': ['job', 'bath', 'fan', '--who', 'Ada Volt'],
};

function write_pages(program, folder) {
    const files = {};
    program.run(['crew', 'add', BEGINNER, '--edition', '2023']);
    for (const [name, words] of Object.entries(KINDS)) {
        files[name] = join(folder, `${name.replaceAll(' ', '-')}.html`);
        program.run([...words, '--html', files[name]]);
    }
    return files;
}

async function check_meeting(checks, program, page, folder) {
    program.run(['meeting', 'plan', '--shop', SHOP, '--title', 'Spring start', '--job', 'bath fan']);
    program.run(['meeting', 'sheet', '--html', join(folder, 'first.html')]);
    const meeting = kept_meeting(program.home);
    let lines = [];
    for (const paper of PAPERS) {
        const sheets = join(folder, `sheets-${paper}`);
        program.run(['meeting', 'sheet', '--paper', paper, '--html', `${sheets}.html`]);
        await show(page, `${sheets}.html`);
        // The page names its own paper; that the printer holds the other one must not matter.
        await print(page, `${sheets}.pdf`, paper === 'a4' ? 'letter' : 'a4');
        check_printed_sheets(checks, meeting, `${sheets}.pdf`, paper);
        const key = join(folder, `key-${paper}`);
        program.run(['meeting', 'key', '--paper', paper, '--html', `${key}.html`]);
        await show(page, `${key}.html`);
        await print(page, `${key}.pdf`, paper);
        lines = check_key(checks, meeting, `${key}.pdf`, paper);
    }
    const html = readFileSync(join(folder, 'sheets-letter.html'), 'utf8');
    await show(page, join(folder, 'sheets-letter.html'));
    await check_no_hint(checks, meeting, page, html);
    await check_boxes(checks, meeting, page);
    await check_directions(checks, page);
    check_round_trip(checks, program, meeting, lines);
}

/** Answers that went wrong, so that the review has something to say. */
function hold_bad_meeting(program) {
    const later = ['--on', '2026-03-05'];
    program.run(['meeting', 'plan', '--shop', SHOP, '--title', 'Second one', ...later]);
    const meeting = kept_meeting(program.home);
    const one = (ask, n) => (ask.options ? (ask.form === 'choose' ? 'abca'[n % 4] + (n % 2 ? '+' : '') : '[ab]') : '[7]');
    const lines = meeting.sheets.slice(1).map(({ sheet }) => `${sheet} ${meeting.asks.map((ask, n) => one(ask, n + sheet)).join(' ')}`);
    program.run(['meeting', 'enter'], { input: lines.join('\n') + '\n' });
}

async function check_pages(checks, browser, page, files, folder) {
    const screens = {};
    for (const { name, width, height, scale } of SCREENS) screens[name] = await open_page(browser, width, height, scale);
    await check_screens(checks, screens, files);
    for (const [name, file] of Object.entries(files)) {
        await show(page, file);
        // Pages of a meeting name their own paper, letter here; the others take what is in the printer.
        for (const paper of name.startsWith('meeting') ? ['letter'] : PAPERS)
            await check_print(checks, page, name, join(folder, `${name.replaceAll(' ', '-')}-${paper}.pdf`), paper);
    }
    const texts = Object.entries(files).map(([name, file]) => [name, readFileSync(file, 'utf8')]);
    await check_markup(checks, Object.fromEntries(texts));
}

async function check_all(checks, program, folder, { decks, all }) {
    const lap = stopwatch();
    open_shop(program, folder);
    check_calendar(checks, program, folder);
    lap('the shop');
    const browser = await open_browser();
    try {
        const page = await open_page(browser, 1280, 900);
        await check_meeting(checks, program, page, folder);
        lap('the meeting');
        hold_bad_meeting(program);
        const files = write_pages(program, folder);
        await check_pages(checks, browser, page, files, folder);
        lap('every page');
        await check_jobs(checks, program, page, folder, { decks, all });
        lap('jobs');
    } finally {
        await browser.close();
    }
    checks.all_made([...CALENDAR_CHECKS, ...SHEET_CHECKS, ...KEY_CHECKS, ...SCREEN_CHECKS, ...MARKUP_CHECKS, ...PRINT_CHECKS, ...JOB_CHECKS]);
}

function stopwatch() {
    let from = Date.now();
    return (what) => {
        console.log(`${what}: ${((Date.now() - from) / 1000).toFixed(1)} s`);
        from = Date.now();
    };
}

async function main([binary, content, ...options]) {
    if (!binary || !content || !existsSync(join(content, 'decks', 'jobs.json'))) {
        console.error('pages.mjs PROGRAM CONTENT [--all-jobs] [--keep FOLDER]');
        return 64;
    }
    const folder = mkdtempSync(join(tmpdir(), 'greentag-pages-'));
    mkdirSync(join(folder, 'home'));
    const checks = new Checks();
    try {
        const program = new Program(binary, join(folder, 'home'));
        await check_all(checks, program, folder, { decks: join(content, 'decks'), all: options.includes('--all-jobs') });
    } catch (error) {
        // Whatever ended the run early is told like any other failure, with what was found until then.
        checks.that('every check was made', false, error.stack);
    } finally {
        const keep = options.indexOf('--keep');
        if (keep >= 0) cpSync(folder, options[keep + 1], { recursive: true });
        rmSync(folder, { recursive: true });
    }
    console.log(checks.summary());
    return checks.failed > 0 ? 1 : 0;
}

process.exitCode = await main(process.argv.slice(2));
