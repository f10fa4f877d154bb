// The real program from outside, always with a data home of its own, a clock that stands and draws that repeat.
import { spawnSync } from 'node:child_process';

export const NOW = '2026-03-02T07:00Z';

export class Program {
    constructor(binary, home) {
        this.binary = binary;
        this.home = home;
    }

    /** Standard output of `greentag WORDS`; throws what the program said when it ended with anything but `exit`. */
    run(words, { input = '', exit = 0 } = {}) {
        const fixed = ['--home', this.home, '--now', NOW, '--seed', '11', '--color', 'never'];
        const ended = spawnSync(this.binary, [...fixed, ...words], { input, encoding: 'utf8', maxBuffer: 1 << 28 });
        if (ended.error) throw ended.error;
        if (ended.status !== exit)
            throw new Error(`greentag ${words.join(' ')} ended with ${ended.status}\n${ended.stderr}${ended.stdout}`);
        return ended.stdout;
    }

    json(words, options) {
        return JSON.parse(this.run([...words, '--json'], options));
    }
}
