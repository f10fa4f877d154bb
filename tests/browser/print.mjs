// Any page on paper: the right size, every word of it there, nothing nearer to the edge than printers reach.
import { beyond_edges, drawn_text, is_paper, pages_of, print, squeezed } from './paper.mjs';

export const PRINT_CHECKS = [
    'print: paper size', 'print: nothing lost', 'print: nothing near the edge of the paper',
    'print: no text out of its cell',
];

// What a page has between margins of 14 mm, in pixels of style.
const BETWEEN = { letter: 710, a4: 687 };

/** Runs in the page: what is visible when printed, piece by piece. */
function printed_pieces() {
    const seen = (node) => node.checkVisibility({ visibilityProperty: true }) && !node.closest('.unseen,.skip,title,desc,style');
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const pieces = [];
    for (let text = walker.nextNode(); text; text = walker.nextNode())
        if (text.data.trim() && seen(text.parentElement)) pieces.push(text.data.trim());
    return pieces;
}

/** Runs in the page: text that sticks out of the cell of a table that it stands in. */
function out_of_cell() {
    return [...document.querySelectorAll('td,th')].flatMap((cell) => {
        if (getComputedStyle(cell.closest('thead') ?? cell).clipPath === 'inset(50%)') return [];
        const range = document.createRange();
        range.selectNodeContents(cell);
        const beyond = range.getBoundingClientRect().right - cell.getBoundingClientRect().right;
        return beyond > 1 ? [`'${cell.textContent.slice(0, 40)}' by ${Math.round(beyond)} px`] : [];
    });
}

/** Words of the page that the paper has fewer of. */
function lost_words(pieces, text) {
    const left = squeezed(text);
    return pieces.filter((piece) => !left.includes(squeezed(piece)));
}

/** Prints the open page and checks what came out; gives the number of pages. */
export async function check_print(checks, page, name, file, paper) {
    const place = `${name} on ${paper}`;
    await page.emulateMedia({ media: 'print' });
    const pieces = await page.evaluate(printed_pieces);
    const screen = page.viewportSize();
    await page.setViewportSize({ width: BETWEEN[paper], height: 900 });
    checks.none('print: no text out of its cell', await page.evaluate(out_of_cell), place);
    await page.setViewportSize(screen);
    await page.emulateMedia({ media: null });
    await print(page, file, paper);
    const sizes = pages_of(file);
    checks.that('print: paper size', is_paper(sizes, paper), `${place}: ${JSON.stringify(sizes[0])}`);
    // What runs over the end of a page stands in one piece once pages are joined.
    checks.none('print: nothing lost', lost_words(pieces, drawn_text(file).join('')).map((p) => `'${p.slice(0, 60)}'`), place);
    checks.none('print: nothing near the edge of the paper', beyond_edges(file, sizes, 18), place);
    return sizes.length;
}
