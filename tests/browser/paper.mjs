// Pages printed to PDF by the browser and read back from it by another program.
import { spawnSync } from 'node:child_process';

/** Width and height in points, as printers name them. */
export const PAPERS = { letter: [612, 792], a4: [595, 842] };

function read(tool, words) {
    const ended = spawnSync(tool, words, { encoding: 'utf8', maxBuffer: 1 << 28 });
    if (ended.error) throw new Error(`${tool} is needed to read what was printed: ${ended.error.message}`);
    if (ended.status !== 0) throw new Error(`${tool} ended with ${ended.status}: ${ended.stderr}`);
    return ended.stdout;
}

/** Prints the open page; `format` is the paper in the printer, which a page's own @page size overrules. */
export async function print(page, file, format) {
    await page.pdf({
        path: file,
        format: format === 'a4' ? 'A4' : 'Letter',
        preferCSSPageSize: true,
        // A browser prints no backgrounds unless told to: nothing may rely on one.
        printBackground: false,
    });
}

export function pages_of(file) {
    const about = read('pdfinfo', ['-f', '1', '-l', '999', file]);
    return [...about.matchAll(/^Page +\d+ size: +([\d.]+) x ([\d.]+) pts/gm)].map((m) => [Number(m[1]), Number(m[2])]);
}

/** The text of each page in the order it was drawn, which is the order of the document. */
export function drawn_text(file) {
    return read('pdftotext', ['-raw', '-enc', 'UTF-8', file, '-']).split('\f').slice(0, -1);
}

const REFERENCES = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'", '#39': "'" };

function plain(text) {
    return text.replace(/&(#?\w+);/g, (whole, name) => REFERENCES[name] ?? whole);
}

/** The words of each page with their place in points from the upper left corner. */
export function placed_words(file) {
    const pages = read('pdftotext', ['-bbox', '-enc', 'UTF-8', file, '-']).split('<page ').slice(1);
    const shape = /<word xMin="([^"]*)" yMin="([^"]*)" xMax="([^"]*)" yMax="([^"]*)">(.*?)<\/word>/g;
    return pages.map((page) =>
        [...page.matchAll(shape)].map((m) => ({
            left: Number(m[1]),
            top: Number(m[2]),
            right: Number(m[3]),
            bottom: Number(m[4]),
            text: plain(m[5]),
        })),
    );
}

/** Text without blanks and in one case, so that line breaks and capitals set by style do not matter. */
export function squeezed(text) {
    return text.normalize('NFKC').replace(/[\s\u00ad]+/g, '').toLowerCase();
}

/** Are all pages of this paper? A point is let through: A4 is 595.28 x 841.89. */
export function is_paper(sizes, paper) {
    const [width, height] = PAPERS[paper];
    return sizes.length > 0 && sizes.every(([w, h]) => Math.abs(w - width) <= 1 && Math.abs(h - height) <= 1);
}

/** Words that stand nearer to the edge of the paper than most printers reach. */
export function beyond_edges(file, sizes, margin) {
    return placed_words(file).flatMap((words, at) => {
        const [width, height] = sizes[at];
        return words
            .filter((w) => w.left < margin || w.top < margin || w.right > width - margin || w.bottom > height - margin)
            .map((w) => `page ${at + 1} '${w.text}' at ${Math.round(w.left)},${Math.round(w.top)}`);
    });
}
