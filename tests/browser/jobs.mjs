// The job reminder: one page on either paper, whatever the job.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { show } from './browser.mjs';
import { check_print } from './print.mjs';
import { CREW } from './shop.mjs';

export const JOB_CHECKS = ['job: one page', 'job: shipped under this name'];
const EDITIONS = ['2023', '2026'];

// The longest reminders of the shipped jobs, found by printing all of them, and some that are short.
const SOME = [
    'gfci-trouble', 'aluminum-wiring', 'motor', 'room-addition', 'well-pump', 'emergency-lights', 'old-wiring',
    'three-way', 'flood', 'generator', 'dryer', 'attic-lighting',
];

/** Everybody goes, so that the line of names is as long as it gets. */
const GOING = CREW.flatMap(({ name }) => ['--who', name]);

/** The shipped jobs by the first words that name each. */
function shipped_jobs(decks) {
    return JSON.parse(readFileSync(join(decks, 'jobs.json'), 'utf8')).jobs.map((job) => [job.id, job.words[0]]);
}

export async function check_jobs(checks, program, page, folder, { decks, all }) {
    const jobs = shipped_jobs(decks).filter(([id]) => all || SOME.includes(id));
    for (const id of SOME) checks.that('job: shipped under this name', jobs.some(([one]) => one === id), id);
    for (const [id, words] of jobs) {
        for (const edition of EDITIONS) {
            const file = join(folder, `job-${id}-${edition}.html`);
            program.run(['job', ...words.split(' '), ...GOING, '--edition', edition, '--html', file]);
            await show(page, file);
            for (const paper of ['letter', 'a4']) {
                const name = `job ${words} --edition ${edition}`;
                const pages = await check_print(checks, page, name, file.replace(/html$/, `${paper}.pdf`), paper);
                checks.that('job: one page', pages === 1, `${name} on ${paper}: ${pages} pages`);
            }
        }
    }
}
