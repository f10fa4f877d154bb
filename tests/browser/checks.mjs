// Every check has a name and is counted; what failed is told with the page and the place in it.

export class Checks {
    #made = 0;
    #failed = 0;
    #names = new Map();

    /** One check: `holds` true or false; `where` names page and place, told only when it failed. */
    that(name, holds, where) {
        this.#made += 1;
        this.#names.set(name, (this.#names.get(name) ?? 0) + 1);
        if (holds) return true;
        this.#failed += 1;
        console.log(`FAILED ${name}: ${where}`);
        return false;
    }

    /** One check that a list of faults is empty; only the first few are told, a broken rule often breaks everywhere. */
    none(name, faults, page) {
        const shown = faults.slice(0, 5).join('; ');
        const more = faults.length > 5 ? ` and ${faults.length - 5} more` : '';
        return this.that(name, faults.length === 0, `${page}: ${shown}${more}`);
    }

    /** A name in `expected` that was never checked is a failure too: a check that is passed over looks like success. */
    all_made(expected) {
        for (const name of expected) this.that('every check was made', this.#names.has(name), name);
    }

    get failed() {
        return this.#failed;
    }

    summary() {
        return `${this.#made} checks of ${this.#names.size} kinds, ${this.#failed} failed`;
    }
}
