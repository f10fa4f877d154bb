// The pages against the HTML standard. No address is asked for: the rules are in the package.
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { FileSystemConfigLoader, HtmlValidate } from 'html-validate';

export const MARKUP_CHECKS = ['page: valid HTML'];

export async function check_markup(checks, files) {
    // Roles that repeat what an element is are let through by the settings: a table that style lays out as blocks on a
    // phone is no table to a screen reader without them. So is the width of a drawing, which each says for itself.
    const loader = new FileSystemConfigLoader({ extends: ['html-validate:recommended', 'html-validate:a11y'] });
    const validator = new HtmlValidate(loader);
    const settings = join(dirname(fileURLToPath(import.meta.url)), 'page.html');
    for (const [name, html] of Object.entries(files)) {
        // Judged as if it lay beside the settings, wherever it was written.
        const report = await validator.validateString(html, settings);
        const faults = report.results.flatMap((result) =>
            result.messages.filter((m) => m.severity === 2).map((m) => `line ${m.line} ${m.ruleId}: ${m.message}`),
        );
        checks.none('page: valid HTML', faults, name);
    }
}
