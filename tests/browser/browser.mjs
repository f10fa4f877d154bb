// One browser for everything: starting it takes longer than any page. Nothing but the file itself may be asked for.
import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const BROWSERS = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
// No sandbox: tests may run as root in a container. The rest keeps the browser from asking anything of its own.
const FLAGS = [
    '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync',
];

export async function open_browser() {
    const program = BROWSERS.find((path) => existsSync(path));
    if (!program) throw new Error(`no browser at ${BROWSERS.join(', ')}`);
    return chromium.launch({ executablePath: program, args: FLAGS });
}

/** A page of this size; `asked` collects every address it asks for, and only files of ours are let through. */
export async function open_page(browser, width, height, scale = 1) {
    // The page's own policy forbids scripts, those of the checks too: it is passed over for them, which only makes the
    // log of what a page asks for stricter.
    const context = await browser.newContext({ viewport: { width, height }, deviceScaleFactor: scale, bypassCSP: true });
    const page = await context.newPage();
    page.asked = [];
    page.on('request', (request) => page.asked.push(request.url()));
    await page.route((url) => url.protocol !== 'file:', (route) => route.abort());
    return page;
}

export async function show(page, file) {
    page.asked.length = 0;
    await page.goto(pathToFileURL(file).href, { waitUntil: 'load' });
}
