// An invented shop: six people, a winter of answers, a meeting. Names are chosen to be hard to print.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';

export const SHOP = 'Reel & Sons "Wire <and> Light"';

export const CREW = [
    { name: 'Ada Volt', skill: 0.85, from: 80, every: 1 },
    { name: 'Benedikta Ohm-Castellanos de la Vega y Oyelaran', skill: 0.6, from: 60, every: 2 },
    { name: 'Cy Farad & Son', skill: 0.45, from: 70, every: 3 },
    { name: "Zoë O'Lumen", skill: 0.7, from: 20, every: 1 },
    { name: 'Dee <b>Weber</b>', skill: 0.55, from: 75, every: 4, until: 16 },
];
/** At the meetings, but nothing studied yet; and somebody who comes after them and has answered nothing at all. */
export const NEWCOMER = 'Gus Henry';
export const BEGINNER = 'Ivy Joule';

const DAY = 86_400_000;
const TODAY = Date.parse('2026-03-02T00:00:00Z');

/** Draws that repeat: a linear congruence is enough to spread answers. */
export function draws(seed) {
    let state = seed >>> 0;
    return () => {
        state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
        return state / 2 ** 32;
    };
}

function id(time, person, count) {
    const hex = time.toString(16).padStart(12, '0');
    return `${hex.slice(0, 8)}-${hex.slice(8)}-7${String(person).padStart(3, '0')}-8000-${String(count).padStart(12, '0')}`;
}

function answer(person, number, at, question, right, draw) {
    const sure = ['guess', 'fairly', 'sure'][Math.min(2, Math.floor((right ? 0.25 + draw() : draw()) * 3))];
    return {
        format: 'greentag-answer/1',
        id: id(at, person, number),
        learner: id(TODAY - 90 * DAY, person, 1),
        name: CREW[person].name,
        point: question.point,
        question: question.id,
        content: '0123456789abcdef',
        seed: number,
        edition: 2023,
        jurisdiction: '',
        setting: 'study',
        asked_at: new Date(at).toISOString(),
        took_ms: 6000 + Math.floor(draw() * 40_000),
        mark: right ? 1 : 0,
        sure,
        given: right ? 'a' : 'b',
        device: '019cad34-0001-7000-b0c1-d2e3f4051627',
    };
}

/** A learner's answers: some new questions a day, and older ones again, known better each time. */
function answers_of(person, questions, draw) {
    const { skill, from, every, until = 0 } = CREW[person];
    const lines = [];
    const seen = [];
    for (let day = from; day > until; day -= every) {
        for (let n = 0; n < 14; ++n) {
            const old = seen.length > 30 && draw() < 0.4;
            const place = old ? seen[Math.floor(draw() * seen.length)] : Math.floor(draw() * questions.length);
            const right = draw() < (old ? skill + (1 - skill) * 0.6 : skill);
            const at = TODAY - day * DAY + 12 * 3_600_000 + n * 60_000;
            lines.push(answer(person, lines.length + 1, at, questions[place], right, draw));
            seen.push(place);
        }
    }
    return lines;
}

/** Questions of the shipped library, a few of each point so that points come back. */
function questions_of(program) {
    const { points } = program.json(['library', 'list', '--edition', '2023']);
    return points.map((point) => ({ point: point.id, id: `${point.id}#${point.questions[0].id}` }));
}

/** The whole shop in the program's data home. */
export function open_shop(program, folder) {
    const questions = questions_of(program);
    const draw = draws(7);
    const lines = CREW.flatMap((_, person) => answers_of(person, questions, draw));
    const file = join(folder, 'answers.jsonl');
    writeFileSync(file, lines.map((line) => JSON.stringify(line)).join('\n') + '\n');
    program.run(['record', 'import', file]);
    program.run(['crew', 'set', 'Ada Volt', '--exam', '2026-03-20']);
    program.run(['crew', 'set', "Zoë O'Lumen", '--exam', '2026-09-01']);
    program.run(['crew', 'add', NEWCOMER, '--edition', '2023']);
    return lines.length;
}
